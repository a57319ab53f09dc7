// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/cautions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/features/detect.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "spots/surroundings.hpp"

namespace castplan {

namespace {

constexpr Metres kDangerSeen(100);  // dangers this near the boat are named
constexpr Metres kLooked(5);        // between the places of a lane that are looked at

/// Where the boat is, as one place or as the places of a lane, and what it is called.
struct Whereabouts {
  Points places;
  Metres least_depth;
  const char* called;
  const char* shallow;
};

// The part of a shape that is nearest to a place outside it: to half a metre, which is ample for a direction.
XY nearest_part(const Geometry& geometry, XY place) {
  XY nearest;
  Metres least(HUGE_VAL);
  for (const Line& line : lines_of(geometry)) {
    for (const XY at : line.size() > 1 ? resampled(line, Metres(1)) : line) {
      if (distance(place, at) >= least) continue;
      least = distance(place, at);
      nearest = at;
    }
  }
  return nearest;
}

bool any_in(const Feature& feature, const Points& places) {
  const auto* polygons = std::get_if<Polygons>(&feature.geometry);
  return polygons != nullptr &&
         std::any_of(places.begin(), places.end(), [&](XY place) { return contains(*polygons, place); });
}

void add_danger(const Feature& feature, const Lake& lake, const Whereabouts& where, Units units,
                std::vector<std::string>& cautions) {
  const PreparedShape shape(feature.geometry);
  XY from;
  Metres least(HUGE_VAL);
  for (const XY place : where.places) {
    const Metres away = shape.distance_to(place);
    if (away >= least) continue;
    least = away;
    from = place;
  }
  if (least > kDangerSeen) return;
  const XY danger = nearest_part(feature.geometry, from);
  cautions.push_back(fmt::format("{} lies {} to the {} of the {}.", feature.name,
                                 distance_text(distance(from, danger), units),
                                 compass_words(true_bearing(lake.projection, from, danger)), where.called));
}

std::vector<std::string> cautions_for(const Lake& lake, const std::vector<Feature>& features, const Whereabouts& where,
                                      const SpotOptions& options) {
  std::vector<std::string> cautions;
  const Metres floats = floating_depth(lake, options.draft, options.margin);
  if (where.least_depth < floats + Metres(0.5)) {
    cautions.push_back(fmt::format("Only {} {}: come in slowly and watch the sounder.",
                                   length_text(where.least_depth, options.units), where.shallow));
  }
  Metres error(0);
  for (const XY place : where.places) error = std::max(error, error_at(lake, place));
  if (error > lake.depth_error + Metres(0.5)) {
    cautions.push_back(fmt::format("The survey is thin here: depths may be off by {}. Sound your way in.",
                                   length_text(error * 1.645, options.units)));
  }
  const Box about = *bounds(Geometry{where.places});
  for (const Feature& feature : features) {
    if (const auto* closure = std::get_if<Closure>(&feature.details); closure && closure->active) {
      const bool inside = any_in(feature, where.places);
      if (inside && closure->kind == ClosureKind::no_wake) cautions.emplace_back("No wake here.");
      if (inside && closure->kind == ClosureKind::electric_only) cautions.emplace_back("Electric motor only here.");
    }
    if (feature.kind != Kind::hazard) continue;
    const auto box = bounds(feature.geometry);
    if (!box || apart(*box, about) > kDangerSeen) continue;
    add_danger(feature, lake, where, options.units, cautions);
  }
  return cautions;
}

}  // namespace

std::vector<std::string> cautions_at(const Lake& lake, const std::vector<Feature>& features, const BoatPlace& place,
                                     const SpotOptions& options) {
  return cautions_for(lake, features, {{place.boat}, place.boat_depth, "boat", "under the boat"}, options);
}

std::vector<std::string> cautions_along(const Lake& lake, const std::vector<Feature>& features, const Line& lane,
                                        Metres least, const SpotOptions& options) {
  return cautions_for(lake, features, {resampled(lane, kLooked), least, "lane", "under the boat in places"}, options);
}

}  // namespace castplan
