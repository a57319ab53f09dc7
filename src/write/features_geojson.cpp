// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/collection.hpp"
#include "write/properties.hpp"

namespace castplan {

std::string features_geojson(const Plan& plan) {
  Collection collection(plan);
  for (const Feature& feature : plan.features) {
    JsonSink sink(collection.begin_feature(feature.id, ground_shape(feature.geometry, plan.lake->projection)));
    put_properties(sink, plan, feature);
    collection.end_feature();
  }
  return collection.text();
}

}  // namespace castplan
