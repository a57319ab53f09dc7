// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/utm.hpp"

#include <algorithm>
#include <cmath>

namespace castplan {

// The transverse Mercator of the zone's meridian, 0.9996 to 1, from 500 km west of it, and in the south from 10 000 km
// south of the equator (EPSG Guidance Note 7-2, method 9807).
UtmPlace Utm::of(LonLat place) {
  const int zone = static_cast<int>(std::clamp(std::floor((place.lon.degrees + 180.0) / 6.0), 0.0, 59.0)) + 1;
  auto plane = planes_.find(zone);
  if (plane == planes_.end()) {
    const LonLat origin{Longitude{zone * 6.0 - 183.0}, Latitude{0.0}};
    plane = planes_.emplace(zone, Projection::transverse_mercator(origin)).first;
  }
  const XY on_plane = plane->second.from_lonlat(place) * 0.9996;
  return {zone, {on_plane.x + 500000.0, on_plane.y + (place.lat.degrees < 0.0 ? 1.0e7 : 0.0)}};
}

}  // namespace castplan
