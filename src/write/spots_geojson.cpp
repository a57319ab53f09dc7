// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/collection.hpp"
#include "write/properties.hpp"

namespace castplan {

std::string spots_geojson(const Plan& plan) {
  Collection collection(plan);
  for (const PhaseSpots* phase : phases_with_spots(plan)) {
    for (const Spot& spot : phase->spots) {
      const PrintedCast cast = printed_cast(plan, spot);
      JsonSink sink(collection.begin_feature(spot.id, MicroPath{cast.boat}));
      put_properties(sink, plan, spot, cast);
      collection.end_feature();
    }
  }
  return collection.text();
}

}  // namespace castplan
