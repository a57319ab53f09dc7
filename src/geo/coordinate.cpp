// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/coordinate.hpp"

#include <cmath>
#include <numbers>

namespace castplan {

XY unit(XY way) {
  const double size = std::hypot(way.x, way.y);
  return size > 0 ? way * (1 / size) : XY{};
}

Metres distance(XY a, XY b) { return Metres(std::hypot(b.x - a.x, b.y - a.y)); }

Degrees grid_bearing(XY from, XY to) {
  return wrap_bearing(Degrees(std::atan2(to.x - from.x, to.y - from.y) * 180.0 / std::numbers::pi));
}

Degrees wrap_bearing(Degrees angle) {
  double turned = std::fmod(angle.value(), 360.0);
  if (turned < 0.0) turned += 360.0;
  // a tiny negative angle rounds up to a full turn
  return Degrees(turned >= 360.0 ? 0.0 : turned + 0.0);
}

}  // namespace castplan
