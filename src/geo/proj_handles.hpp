// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <proj.h>

#include <memory>
#include <optional>
#include <string>

#include "castplan/geo/coordinate.hpp"

namespace castplan {

/// A PROJ context of its own for each projection: no network, and messages kept instead of printed.
class ProjContext {
 public:
  ProjContext();
  ~ProjContext();
  ProjContext(const ProjContext&) = delete;
  ProjContext& operator=(const ProjContext&) = delete;

  [[nodiscard]] PJ_CONTEXT* get() const { return handle_; }
  /// What PROJ last complained about; empty if it did not.
  [[nodiscard]] const std::string& message() const { return message_; }

 private:
  PJ_CONTEXT* handle_;
  std::string message_;
};

struct PjDestroyer {
  void operator()(PJ* object) const { proj_destroy(object); }
};
using PjPtr = std::unique_ptr<PJ, PjDestroyer>;

/// The horizontal part of a coordinate reference system, and what the axes mean.
struct HorizontalCrs {
  PjPtr crs;   ///< with its datum shift to WGS 84, if the text gave one
  PjPtr bare;  ///< without
  PjPtr base;  ///< the geographic system below
  bool geographic{};
  double metres_per_unit = 1.0;
  double radians_per_base_unit{};
  double semi_major_m{};
  double eccentricity_squared{};
  std::string name;
  std::string definition;
};

/// Throws InputError that names the text and says what is accepted.
HorizontalCrs read_crs(const ProjContext& context, const std::string& text);

/// The one operation between two systems that PROJ ranks first, for a place if one is given, among those that keep the
/// datum and whose grids are installed; x is east and y is north on both sides. Null if there is none.
PjPtr best_operation(const ProjContext& context, const PJ* from, const PJ* to, const std::optional<LonLat>& place = {});

}  // namespace castplan
