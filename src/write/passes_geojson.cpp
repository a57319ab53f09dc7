// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/collection.hpp"
#include "write/properties.hpp"

namespace castplan {

std::string passes_geojson(const Plan& plan) {
  Collection collection(plan);
  for (const PhaseSpots* phase : phases_with_spots(plan)) {
    for (const Pass& pass : phase->passes) {
      JsonSink sink(collection.begin_feature(pass.id, ground_shape(Lines{pass.lane}, plan.lake->projection)));
      put_properties(sink, plan, pass);
      collection.end_feature();
    }
  }
  return collection.text();
}

}  // namespace castplan
