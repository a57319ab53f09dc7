// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cmath>
#include <vector>

#include "castplan/features/detect.hpp"
#include "support/lakes.hpp"

namespace castplan::lakes {

/// All features of a lake, with an optional weed edge and mapped layers.
inline std::vector<Feature> detect(const Lake& lake, std::optional<WeedKnowledge> weeds = {},
                                   std::span<const MappedStructure> structure = {}, const DetectOptions& options = {}) {
  return find_features(Ground{lake, {}, {}, weeds, structure, {}, {}}, options);
}

inline std::vector<Feature> of_kind(const std::vector<Feature>& features, Kind kind) {
  std::vector<Feature> found;
  for (const Feature& feature : features) {
    if (feature.kind == kind) found.push_back(feature);
  }
  return found;
}

/// Outside edges or inside edges of plants alone.
inline std::vector<Feature> edges_of(const std::vector<Feature>& features, WeedEdge edge) {
  std::vector<Feature> found = of_kind(features, Kind::weed_line);
  std::erase_if(found, [&](const Feature& each) { return std::get<WeedLine>(each.details).edge != edge; });
  return found;
}

/// Metres of these edges: drop-offs or weed lines.
template <class Edge>
double total_length(const std::vector<Feature>& edges) {
  double sum = 0;
  for (const Feature& each : edges) sum += std::get<Edge>(each.details).length.value();
  return sum;
}

/// All vertices of the features, with the distance from (0, 0).
inline std::pair<double, double> radii(const std::vector<Feature>& features) {
  std::pair range(1e9, 0.0);
  for (const Feature& feature : features) {
    for (const XY at : vertices(feature.geometry)) {
      range.first = std::min(range.first, std::hypot(at.x, at.y));
      range.second = std::max(range.second, std::hypot(at.x, at.y));
    }
  }
  return range;
}

}  // namespace castplan::lakes
