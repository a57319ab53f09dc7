// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <type_traits>

#include "castplan/geo/quantity.hpp"

namespace castplan {

/// Degrees east of Greenwich, WGS 84. A type of its own, so that it cannot be swapped with a latitude.
struct Longitude {
  double degrees{};
  bool operator==(const Longitude&) const = default;
};

/// Degrees north of the equator, WGS 84.
struct Latitude {
  double degrees{};
  bool operator==(const Latitude&) const = default;
};

/// A place on the earth, WGS 84.
struct LonLat {
  Longitude lon;
  Latitude lat;
  bool operator==(const LonLat&) const = default;
};

/// A place in the working grid's projection: metres east and metres north (grid north, not true north).
struct XY {
  double x{};
  double y{};
  bool operator==(const XY&) const = default;
};

static_assert(sizeof(LonLat) == 16 && std::is_trivially_copyable_v<LonLat>);
static_assert(sizeof(XY) == 16 && std::is_trivially_copyable_v<XY>);

constexpr XY operator+(XY a, XY b) { return {a.x + b.x, a.y + b.y}; }
constexpr XY operator-(XY a, XY b) { return {a.x - b.x, a.y - b.y}; }
constexpr XY operator*(XY a, double factor) { return {a.x * factor, a.y * factor}; }
constexpr double dot(XY a, XY b) { return a.x * b.x + a.y * b.y; }
/// Positive when b lies to the left of a.
constexpr double cross(XY a, XY b) { return a.x * b.y - a.y * b.x; }

/// The same direction with length 1; {0, 0} where there is none.
XY unit(XY way);

/// Distance on the working grid's plane.
Metres distance(XY a, XY b);

/// Direction from one place to another on the plane: degrees clockwise from grid north, [0, 360).
Degrees grid_bearing(XY from, XY to);

/// The same angle in [0, 360).
Degrees wrap_bearing(Degrees angle);

}  // namespace castplan
