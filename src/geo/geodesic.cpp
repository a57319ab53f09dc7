// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/geodesic.hpp"

#include <geodesic.h>

namespace castplan {
namespace {

const geod_geodesic& wgs84() {
  static const geod_geodesic ellipsoid = [] {
    geod_geodesic built{};
    geod_init(&built, 6378137.0, 1.0 / 298.257223563);
    return built;
  }();
  return ellipsoid;
}

}  // namespace

Geodesic geodesic(LonLat from, LonLat to) {
  double length = 0.0;
  double bearing = 0.0;
  geod_inverse(&wgs84(), from.lat.degrees, from.lon.degrees, to.lat.degrees, to.lon.degrees, &length, &bearing,
               nullptr);
  return {.distance = Metres(length), .bearing = wrap_bearing(Degrees(bearing))};
}

LonLat geodesic_destination(LonLat from, Degrees bearing, Metres distance) {
  double lat = 0.0;
  double lon = 0.0;
  geod_direct(&wgs84(), from.lat.degrees, from.lon.degrees, bearing.value(), distance.value(), &lat, &lon, nullptr);
  return {.lon = Longitude{lon}, .lat = Latitude{lat}};
}

}  // namespace castplan
