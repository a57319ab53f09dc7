// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/projection.hpp"
#include "castplan/geo/shape.hpp"

namespace castplan {

/// The plane that a lake's map is drawn on: a transverse Mercator about its middle, north up, so that it holds across
/// 180 degrees and near a pole. x runs east and y south, in drawing units from the north-west corner.
class MapPlane {
 public:
  static constexpr double kLongest = 1000.0;  ///< units along the longer side

  /// Shows all of the outline with a margin; width over height lies between 0.75 and 1.9.
  MapPlane(LonLat centre, const Polygons& outline);
  [[nodiscard]] XY drawn(XY degrees) const;
  [[nodiscard]] XY drawn(LonLat place) const { return drawn(XY{place.lon.degrees, place.lat.degrees}); }
  /// False for what is so far away that it cannot be on the map.
  [[nodiscard]] bool may_hold(LonLat place) const;
  [[nodiscard]] double width() const { return width_; }    ///< units
  [[nodiscard]] double height() const { return height_; }  ///< units
  [[nodiscard]] double metres_a_unit() const { return unit_; }

 private:
  Projection projection_;
  LonLat centre_;
  XY corner_{};  ///< north-west, metres
  double unit_{1.0}, width_{}, height_{};
};

}  // namespace castplan
