// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>

#include "castplan/geo/projection.hpp"

namespace castplan {

/// From a file's own coordinates, in its own unit, to the working plane.
struct Mover {
  Projection source;
  Projection target;
  double unit;  ///< the file's coordinates to what Projection takes
  bool same;    ///< the two are one system

  static Mover between(Projection source, Projection target);
  /// NaN where there is no way.
  [[nodiscard]] XY operator()(double x, double y) const {
    if (same) return {x * unit, y * unit};
    return target.from_lonlat(source.to_lonlat({x * unit, y * unit}));
  }
};

/// The system that an option names. InputError with the file's name.
Projection projection_given(const std::string& crs, const std::string& shown);

/// The mover for data that lie there. Coordinates that cannot be places of the stated system, or only when x and y
/// change places, are an InputError. mend: what to do about swapped ones.
Mover placed(std::span<const XY> own, Mover mover, const std::string& shown, const std::string& mend);

}  // namespace castplan
