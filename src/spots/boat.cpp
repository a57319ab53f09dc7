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
constexpr Metres kPast(4.5);  // how far past the target the cast lands, so that the lure is down when it passes
constexpr float kLandingDepth = 0.3F;  // a lure that lands in less lies on the shore
constexpr Metres kFromDanger(10);

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

// Design: 1 for the deep side, 0.6 for the shallow one; half for less water at the boat than a figure-eight wants; a
// fifth less at either end of the range of casts. Rounded, so that float noise cannot turn equals round.
double preference(const BoatPlace& place, const Target& target, const SpotOptions& options) {
  const double side = place.boat_depth >= target.depth ? 1 : 0.6;
  const double room = place.boat_depth >= options.boat_depth_wanted ? 1 : 0.5;
  const double middle = (options.cast_from.value() + options.cast_to.value()) / 2;
  const double half = std::max((options.cast_to - options.cast_from).value() / 2, 1e-9);
  const double length = 1 - 0.2 * std::min(1.0, std::abs(place.cast.value() - middle) / half);
  // a little deeper under the boat is a little better, up to 3 m more than the target
  const double deeper = std::clamp((place.boat_depth - target.depth).value() / 3, 0.0, 1.0);
  return std::round(side * room * length * (1 + 0.2 * deeper) * 1e3);
}

}  // namespace

BoatFinder::BoatFinder(const Lake& lake, const std::vector<Feature>& features, const SpotOptions& options)
    : lake_(lake),
      options_(options),
      floats_(floating_depth(lake, options.draft, options.margin)),
      water_(Geometry{lake.outline}),
      shores_(Geometry{shores(lake.outline)}),
      closed_(Geometry{closed_water(features, options)}),
      dangers_(Geometry{dangers(features)}),
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
      const double liked = preference(place, target, options_);
      if (liked <= best_preference) continue;
      if (!(bilinear(lake_.depth, place.landing) >= kLandingDepth)) continue;
      if (!may_float(place.boat, depth) || !may_cast(place.boat, place.landing)) continue;
      best = place;
      best_preference = liked;
    }
  }
  return best;
}

}  // namespace castplan
