// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "write/ground_shape.hpp"

namespace castplan {

/// A GeoJSON FeatureCollection under way: one feature after the other, then the text with bbox and metadata.
class Collection {
 public:
  explicit Collection(const Plan& plan);
  /// Opens a feature; the caller goes on with its properties after `id`.
  JsonText& begin_feature(const std::string& id, const GroundShape& shape);
  void end_feature();
  [[nodiscard]] std::string text() const;

 private:
  const Plan& plan_;
  Extent extent_;
  JsonText json_;  // of the feature that is open
  std::vector<std::string> features_;
};

}  // namespace castplan
