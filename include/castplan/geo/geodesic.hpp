// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/coordinate.hpp"

namespace castplan {

struct Geodesic {
  Metres distance;
  Degrees bearing;  ///< at the start, clockwise from true north, [0, 360)
};

/// Shortest path on the WGS 84 ellipsoid. Accurate to 15 nm.
/// Source: Karney (2013), J. Geod. 87, 43-55, doi:10.1007/s00190-012-0578-z, as built into PROJ.
Geodesic geodesic(LonLat from, LonLat to);

/// The place reached from a start by a bearing and a distance. Same source and accuracy.
LonLat geodesic_destination(LonLat from, Degrees bearing, Metres distance);

}  // namespace castplan
