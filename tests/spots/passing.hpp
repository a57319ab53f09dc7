// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

#include "castplan/geo/geodesic.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/spots/rank.hpp"
#include "support/detecting.hpp"

/// Lakes with edges to pass, and what holds of any pass on any lake.
namespace castplan::lakes {

inline const Phase& summer() { return *phase_named(species("muskellunge"), "summer"); }

/// A long lake with walls about a straight ramp from 3 m to 9 m over 12 m, which runs north; deep water to the east.
inline double wall_depth(XY at) {
  if (std::abs(at.x) > 120 || std::abs(at.y) > 240) return static_cast<double>(kLand.value());
  return 3 + 6 * std::clamp((at.x + 6) / 12, 0.0, 1.0);
}

inline Lake lake_like(const std::function<double(XY)>& depth) {
  return lake_of(filled(frame_about(Metres(280), Metres(4)), depth));
}

inline std::vector<Pass> passes_of(const Lake& lake, const std::vector<Feature>& features,
                                   const SpotOptions& options = {}, const Phase& phase = summer()) {
  return rank_spots(lake, features, phase, options).passes;
}

inline Lines shore_lines(const Lake& lake) {
  Lines lines;
  for (const Polygon& polygon : lake.outline) {
    lines.push_back(polygon.outer);
    lines.insert(lines.end(), polygon.holes.begin(), polygon.holes.end());
  }
  return lines;
}

inline LonLat to_6(LonLat place) {
  const auto rounded = [](double degrees) { return std::round(degrees * 1e6) / 1e6; };
  return {{rounded(place.lon.degrees)}, {rounded(place.lat.degrees)}};
}

inline double geodesic_length(const Lake& lake, const Line& lane) {
  double sum = 0;
  for (std::size_t i = 1; i < lane.size(); ++i) {
    sum += geodesic(to_6(lake.projection.to_lonlat(lane[i - 1])), to_6(lake.projection.to_lonlat(lane[i])))
               .distance.value();
  }
  return sum;
}

/// What holds of any pass on any lake.
inline void hold_to_rules(const Lake& lake, const std::vector<Feature>& features, const std::vector<Pass>& passes,
                          const SpotOptions& options = {}) {
  const PreparedShape water{Geometry{lake.outline}};
  const PreparedShape shores{Geometry{shore_lines(lake)}};
  for (std::size_t i = 0; i < passes.size(); ++i) {
    const Pass& pass = passes[i];
    INFO(pass.id);
    CHECK(pass.rank == static_cast<int>(i) + 1);
    if (i > 0) CHECK(pass.score <= passes[i - 1].score);
    REQUIRE(pass.lane.size() >= 2);
    CHECK(pass.length.value() == Approx(geodesic_length(lake, pass.lane)).margin(0.005));
    CHECK(pass.length >= Metres(59.5));
    CHECK(pass.casts == 1 + static_cast<int>(pass.length.value() / 10));
    // 30 s overhead a cast, 0.8 m/s, or 0.5 m/s in cold water: common practice, no source
    const double least = pass.casts * (30 + pass.cast.first.value() / 0.8) / 60;
    const double most = pass.casts * (30 + pass.cast.second.value() / 0.5) / 60;
    CHECK(pass.minutes >= std::floor(least));
    CHECK(pass.minutes <= std::ceil(most));
    double product = 1, weights = 0;
    for (const Reason& reason : pass.why) {
      product *= std::pow(reason.suitability, reason.weight);
      weights += reason.weight;
    }
    CHECK(pass.score == Approx(product).margin(2e-6));
    CHECK(weights == Approx(1).margin(1e-9));
    CHECK_FALSE(shores.touches(pass.lane));
    CHECK(pass.cast.first >= options.cast_from);
    CHECK(pass.cast.second <= options.cast_to);
    CHECK(pass.cast.first <= pass.cast.second);
    double shallowest = 1e9, deepest = 0;
    for (const XY at : resampled(pass.lane, Metres(0.5))) {
      const double depth = bilinear(lake.depth, at);
      shallowest = std::min(shallowest, depth);
      deepest = std::max(deepest, depth);
      CHECK(cover_at(lake, at) == Cover::water);
      CHECK(shores.distance_to(at) >= Metres(9.8));
    }
    // draft 0.45 + margin 0.6 + assumed error 0.3
    CHECK(shallowest >= 1.35);
    CHECK(pass.boat_depth.first.value() == Approx(shallowest).margin(0.02));
    CHECK(pass.boat_depth.second.value() == Approx(deepest).margin(0.02));
    for (const Feature& feature : features) {
      const auto* closure = std::get_if<Closure>(&feature.details);
      if (closure != nullptr && closure->active && closure->kind == ClosureKind::no_entry) {
        CHECK_FALSE(PreparedShape(feature.geometry).touches(pass.lane));
      }
      if (feature.kind != Kind::hazard) continue;
      const PreparedShape danger(feature.geometry);
      for (const XY at : resampled(pass.lane, Metres(2))) CHECK(danger.distance_to(at) >= Metres(9.9));
    }
    CHECK_FALSE(pass.reason_words.empty());
    CHECK(pass.kinds.front() == std::find_if(features.begin(), features.end(), [&](const Feature& each) {
                                  return each.id == pass.feature_ids.front();
                                })->kind);
  }
}

inline const Feature& feature_of(const std::vector<Feature>& features, const Pass& pass) {
  return *std::find_if(features.begin(), features.end(),
                       [&](const Feature& each) { return each.id == pass.feature_ids.front(); });
}

}  // namespace castplan::lakes
