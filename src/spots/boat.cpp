// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/boat.hpp"

#include <algorithm>
#include <cmath>

#include "castplan/features/detect.hpp"
#include "castplan/grid/sample.hpp"

namespace castplan {

namespace {

constexpr int kDirections = 24;
constexpr Metres kFigureEight(3.5);   // of clear water about the boat
constexpr double kAlong = 0.5;        // metres between the places of a retrieve that are looked at
constexpr Metres kEdgeScatter(0.3);   // of the depth at which plants end: along the edge itself there are gaps
constexpr double kMostOfCasts = 1.3;  // see worth_of_casts
constexpr double kClearly = 1.05;     // so much better a place further round must be: noise must not choose
constexpr double kAdrift = 0.8;       // worth of a place from which a boat drifts onto something; design choice

Polygons closed_water(const std::vector<Feature>& features, const SpotOptions& options) {
  Polygons all = options.keep_out;
  for (const Feature& feature : features) {
    const auto* closure = std::get_if<Closure>(&feature.details);
    if (closure == nullptr || !closure->active) continue;
    if (closure->kind != ClosureKind::no_entry && closure->kind != ClosureKind::no_fishing) continue;
    // a line of buoys or a single mark has no area: as much room as around a danger
    const auto* given = std::get_if<Polygons>(&feature.geometry);
    const Polygons polygons = given != nullptr ? *given : buffered(feature.geometry, kFromDanger);
    all.insert(all.end(), polygons.begin(), polygons.end());
  }
  return all;
}

// Whatever a boat can strike, with room around it.
Polygons dangers(const std::vector<Feature>& features) {
  Polygons all;
  for (const Feature& feature : features) {
    if (feature.kind != Kind::hazard) continue;
    const Polygons wide = buffered(feature.geometry, kFromDanger);
    all.insert(all.end(), wide.begin(), wide.end());
  }
  return all;
}

Lines shores(const Polygons& outline) {
  Lines lines;
  for (const Polygon& polygon : outline) {
    lines.push_back(polygon.outer);
    lines.insert(lines.end(), polygon.holes.begin(), polygon.holes.end());
  }
  return lines;
}

Polygons beds(const std::vector<Feature>& features) {
  Polygons all;
  for (const Feature& feature : features) {
    const auto* polygons = feature.kind == Kind::weeds ? std::get_if<Polygons>(&feature.geometry) : nullptr;
    if (polygons != nullptr) all.insert(all.end(), polygons->begin(), polygons->end());
  }
  return all;
}

Metres deepest_plants(const std::vector<Feature>& features) {
  Metres deepest(0);
  for (const Feature& feature : features) {
    const auto* weeds = std::get_if<WeedLine>(&feature.details);
    if (weeds != nullptr && weeds->edge == WeedEdge::outside) deepest = std::max(deepest, weeds->depth);
  }
  return deepest;
}

/// The least of what water(place) gives along the retrieve.
template <class Water>
Metres least_along(XY boat, XY from, const Water& water) {
  const int steps = std::max(1, static_cast<int>(std::ceil(distance(boat, from).value() / kAlong)));
  Metres least(HUGE_VAL);
  for (int i = 0; i <= steps; ++i) {
    least = std::min(least, water(boat + (from - boat) * (static_cast<double>(i) / steps)));
  }
  return least;
}

}  // namespace

BoatFinder::BoatFinder(const Lake& lake, const std::vector<Feature>& features, const Surroundings& surroundings,
                       const SpotOptions& options)
    : lake_(lake),
      surroundings_(surroundings),
      options_(options),
      floats_(floating_depth(lake, options.draft, options.margin)),
      water_(Geometry{lake.outline}),
      shores_(Geometry{shores(lake.outline)}),
      closed_(Geometry{closed_water(features, options)}),
      dangers_(Geometry{dangers(features)}),
      beds_(Geometry{beds(features)}),
      plants_to_(deepest_plants(features)),
      drift_(lake, features, options),
      any_closed_(!closed_water(features, options).empty()),
      any_danger_(std::any_of(features.begin(), features.end(),
                              [](const Feature& feature) { return feature.kind == Kind::hazard; })) {}

bool BoatFinder::may_float(XY place, float depth) const {
  // where the survey is thinner than usual, more water is asked for
  const Metres thin = std::max(Metres(0), error_at(lake_, place) - lake_.depth_error);
  return depth >= (floats_ + thin).value() && cover_at(lake_, place) == Cover::water && water_.covers(place) &&
         !(any_closed_ && closed_.covers(place)) && !(any_danger_ && dangers_.covers(place));
}

bool BoatFinder::may_cast(XY boat, XY landing) const {
  // unknown depths are no water: every step of the cast must be over a known, wet floor
  const double step = std::min(2.0, lake_.depth.frame().cell.value() / 2);
  const int steps = static_cast<int>(std::ceil(distance(boat, landing).value() / step));
  for (int i = 0; i <= steps; ++i) {
    const XY at = boat + (landing - boat) * (static_cast<double>(i) / steps);
    if (!(bilinear(lake_.depth, at) > 0) || cover_at(lake_, at) != Cover::water) return false;
  }
  const Line line{boat, landing};
  return !shores_.touches(line) && !(any_closed_ && closed_.touches(line));
}

bool BoatFinder::is_clear(const Line& way) const {
  return !shores_.touches(way) && !(any_closed_ && closed_.touches(way)) && !(any_danger_ && dangers_.touches(way));
}

bool BoatFinder::room_for_figure_eight(XY boat) const {
  constexpr int kAround = 8;
  for (int i = 0; i < kAround; ++i) {
    const XY place = offset(boat, Degrees(i * 360.0 / kAround), kFigureEight);
    if (!(bilinear(lake_.depth, place) >= options_.boat_depth_wanted.value())) return false;
  }
  return true;
}

Metres BoatFinder::room_for_lure(XY boat, XY from) const {
  return least_along(boat, from, [&](XY at) {
    const Metres floor(bilinear(lake_.depth, at));
    const bool plants = floor < plants_to_ - kEdgeScatter || beds_.covers(at);
    return plants ? floor * 0.5 : floor;
  });
}

Metres BoatFinder::floor_between(XY boat, XY target) const {
  return least_along(boat, target, [&](XY at) { return Metres(bilinear(lake_.depth, at)); });
}

// Design: 1 for the deep side, 0.6 for the shallow one; half for less water about the boat than a figure-eight wants; a
// fifth less at either end of the range of casts. Rounded, so that float noise cannot turn equals round.
double BoatFinder::preference(const BoatPlace& place, const Target& target) const {
  const double side = place.boat_depth >= target.depth ? 1 : 0.6;
  const bool deep = place.boat_depth >= options_.boat_depth_wanted;
  const double room = deep && room_for_figure_eight(place.boat) ? 1 : 0.5;
  const double middle = (options_.cast_from.value() + options_.cast_to.value()) / 2;
  const double half = std::max((options_.cast_to - options_.cast_from).value() / 2, 1e-9);
  const double length = 1 - 0.2 * std::min(1.0, std::abs(place.cast.value() - middle) / half);
  // a little deeper under the boat is a little better, up to 3 m more than the target
  const double deeper = std::clamp((place.boat_depth - target.depth).value() / 3, 0.0, 1.0);
  return std::round(side * room * length * (1 + 0.2 * deeper) * 1e3);
}

// Up to three tenths more for what a fan of casts passes: 60 m of edges, four kinds. A fifth less where the floor rises
// between boat and target to half a metre above what is fished. Design.
double BoatFinder::worth_of_casts(const BoatPlace& place, const Target& target) const {
  const FanCover fan = surroundings_.in_fan(place.boat, unit(target.at - place.boat), options_.cast_to);
  const double edges = std::min(1.0, fan.edge.value() / 60);
  const double kinds = std::min(1.0, (static_cast<double>(fan.kinds) - 1) / 3);
  const Metres least = floor_between(place.boat, target.at);
  const double risen = least < target.depth - Metres(0.5) ? 0.8 : 1;
  return risen * (1 + 0.1 * edges + 0.2 * std::max(0.0, kinds));
}

std::optional<BoatPlace> BoatFinder::best(const Target& target) const {
  std::optional<BoatPlace> best;
  double best_preference = 0;
  const Metres middle = (options_.cast_from + options_.cast_to) / 2;
  const XY slope = gradient_at(lake_.depth, target.at);
  const double deeper = std::hypot(slope.x, slope.y) > 0 ? grid_bearing({}, slope).value() : 0.0;
  for (int direction = 0; direction < kDirections; ++direction) {
    // straight out from the slope first, then ever further round on both sides: turning the grid changes nothing
    const int turn = direction % 2 == 1 ? (direction + 1) / 2 : -direction / 2;
    const double angle = deeper + turn * 360.0 / kDirections;
    for (const Metres cast : {middle, options_.cast_to, options_.cast_from}) {
      BoatPlace place;
      place.cast = cast;
      place.to_target = cast - kPast;
      place.boat = offset(target.at, Degrees(angle), place.to_target);
      place.landing = offset(target.at, wrap_bearing(Degrees(angle + 180)), kPast);
      const float depth = bilinear(lake_.depth, place.boat);
      if (!(depth >= floats_.value())) continue;
      place.boat_depth = Metres(std::round(static_cast<double>(depth) * 100) / 100);
      double liked = preference(place, target);
      if (liked * kMostOfCasts <= best_preference * kClearly) continue;
      liked = std::round(liked * worth_of_casts(place, target));
      if (liked <= best_preference * kClearly) continue;
      if (!(bilinear(lake_.depth, place.landing) >= kLandingDepth)) continue;
      if (!may_float(place.boat, depth) || !may_cast(place.boat, place.landing)) continue;
      place.adrift = drift_.from(place.boat);
      if (place.adrift && (liked = std::round(liked * kAdrift)) <= best_preference * kClearly) continue;
      best = place;
      best_preference = liked;
    }
  }
  return best;
}

}  // namespace castplan
