// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>

#include "io/depth_collector.hpp"

class OGRFeature;
class OGRGeometry;
class OGRLayer;

namespace castplan {

/// Where the depths of a layer stand: in a field, or in Z.
struct DepthAttribute {
  int field = -1;  ///< -1: Z
  bool number = false;
  std::optional<Sense> sense{};  ///< where the field's name says elevation
  std::string names;             ///< of all fields, for messages

  /// The field told, else the one whose name says so, else Z. InputError with the fields' names. Settles the unit too.
  static DepthAttribute of(OGRLayer& layer, const DepthSourceOptions& options, DepthAccount& account);

  struct Begun {
    std::size_t number;            ///< the feature's, for messages
    const OGRGeometry& shape;      ///< not empty
    std::optional<double> metres;  ///< as written; none where depths stand in Z
  };
  /// Counts a feature; nothing where it has no shape (then `without_shape` is the reason) or no depth in the field.
  [[nodiscard]] std::optional<Begun> begin(const OGRFeature& feature, DepthAccount& account,
                                           const char* without_shape) const;

 private:
  [[nodiscard]] std::optional<double> value(const OGRFeature& feature, std::size_t number_of_feature,
                                            DepthAccount& account) const;
};

/// Fills what a layer says of itself and makes the way to the plane.
Mover layer_mover(OGRLayer& layer, const DepthSourceOptions& options, const Projection& target, DepthSource& source);

}  // namespace castplan
