// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "castplan/geo/geodesic.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "spots/cautions.hpp"
#include "spots/lane.hpp"
#include "spots/passes.hpp"
#include "spots/printed.hpp"
#include "spots/tackle.hpp"

namespace castplan {

namespace {

constexpr Metres kBetweenCasts(10);  // common practice: the boat's way in the time of a cast, at 0.2 m/s
constexpr double kAcross = 1e-3;     // cosine under which a wind blows square across a lane
constexpr double kAlike = 1e-3;      // of a score: halves that differ by less are equals

/// Share of the wind that blows against somebody who goes the lane; 0 without a wind.
double against_wind(const Lane& lane, const PassGround& ground) {
  if (!ground.options.wind) return 0;
  const Degrees way = true_bearing(ground.lake.projection, lane.way.front(), lane.way.back());
  const double share = std::cos((way - ground.options.wind->from).value() * M_PI / 180);
  return std::abs(share) < kAcross ? 0 : share;
}

/// Mean score of the first half of the lane less that of the second.
double better_first(const Lane& lane) {
  const std::size_t half = lane.casts.size() / 2;
  double first = 0, second = 0;
  for (std::size_t i = 0; i < half; ++i) {
    first += lane.casts[i].target->score;
    second += lane.casts[lane.casts.size() - 1 - i].target->score;
  }
  const double ahead = (first - second) / static_cast<double>(std::max<std::size_t>(1, half));
  return std::abs(ahead) < kAlike ? 0 : ahead;
}

Lane directed(Lane lane, const PassGround& ground) {
  double keep = against_wind(lane, ground);
  if (keep == 0) keep = better_first(lane);
  if (keep == 0) keep = begun_at_north(lane.way) == lane.way ? 1 : -1;
  return keep > 0 ? lane : reversed(std::move(lane));
}

Reason mean_reason(std::size_t factor, const std::vector<LaneCast>& casts) {
  const Reason* common = nullptr;
  std::ptrdiff_t most = 0;
  const auto unit_of = [&](const LaneCast& cast) -> const std::string& { return cast.target->why[factor].unit; };
  for (const LaneCast& cast : casts) {
    const auto count = std::count_if(casts.begin(), casts.end(),
                                     [&](const LaneCast& other) { return unit_of(other) == unit_of(cast); });
    if (count <= most) continue;
    most = count;
    common = &cast.target->why[factor];
  }
  Reason mean = *common;
  mean.value = mean.suitability = 0;
  for (const LaneCast& cast : casts) {
    const Reason& reason = cast.target->why[factor];
    mean.suitability += reason.suitability / static_cast<double>(casts.size());
    if (reason.unit == mean.unit) mean.value += reason.value / static_cast<double>(most);
  }
  mean.value = to_2(mean.value);
  mean.suitability = to_4(mean.suitability);
  mean.source += fmt::format(" (mean of {} places along the lane)", casts.size());
  return mean;
}

void fill_covered(Pass& pass, const Lane& lane, const Surroundings& surroundings) {
  const Feature& edge = *lane.casts.front().target->feature;
  std::set<Kind> kinds;
  pass.kinds = {edge.kind};
  pass.feature_ids = {edge.id};
  for (const LaneCast& cast : lane.casts) {
    for (const Neighbour& each : surroundings.near(cast.target->at, kWithinCast)) {
      if (each.feature->kind != edge.kind) kinds.insert(each.feature->kind);
      const auto& ids = pass.feature_ids;
      if (std::find(ids.begin(), ids.end(), each.feature->id) == ids.end())
        pass.feature_ids.push_back(each.feature->id);
    }
  }
  pass.kinds.insert(pass.kinds.end(), kinds.begin(), kinds.end());
}

void fill_measures(Pass& pass, const Lane& lane, const PassGround& ground) {
  const Projection& projection = ground.lake.projection;
  for (std::size_t i = 1; i < lane.way.size(); ++i) {
    pass.length += geodesic(as_printed(projection, lane.way[i - 1]), as_printed(projection, lane.way[i])).distance;
  }
  pass.heading = geodesic(as_printed(projection, lane.way.front()), as_printed(projection, lane.way.back())).bearing;
  pass.cast = {Metres(HUGE_VAL), Metres(0)};
  pass.target_depth = {Metres(HUGE_VAL), Metres(0)};
  Metres casts(0), rooms(0), floors(0);
  for (const LaneCast& cast : lane.casts) {
    pass.cast = {std::min(pass.cast.first, cast.cast), std::max(pass.cast.second, cast.cast)};
    const Metres depth = cast.target->depth;
    pass.target_depth = {std::min(pass.target_depth.first, depth), std::max(pass.target_depth.second, depth)};
    casts += cast.cast;
    rooms += std::min(depth, cast.room);
    floors += std::min(depth, cast.floor);
  }
  const auto count = static_cast<double>(lane.casts.size());
  pass.casts = 1 + static_cast<int>(std::floor(pass.length / kBetweenCasts));
  pass.minutes = minutes_for(pass.casts, casts / count, is_cold(ground.phase));
  pass.presentations = presentations(ground.phase, rooms / count, floors / count);
}

std::string way_words(const Pass& pass, const PassGround& ground, double against) {
  const Units units = ground.options.units;
  const char* wind = "";
  if (against > 0.5) wind = ", into the wind";
  if (against > 0 && against <= 0.5) wind = ", across the wind";
  return fmt::format("{} to the {}{}, casting to the {}", distance_text(pass.length, units),
                     compass_words(pass.heading), wind, name_of(pass.cast_side));
}

}  // namespace

std::string_view name_of(Side side) { return side == Side::left ? "left" : "right"; }

std::vector<Reason> mean_why(const Lane& lane) {
  std::vector<Reason> why;
  const std::size_t factors = lane.casts.front().target->why.size();
  for (std::size_t factor = 0; factor < factors; ++factor) why.push_back(mean_reason(factor, lane.casts));
  return why;
}

Pass make_pass(Lane given, const PassGround& ground) {
  const Lane lane = directed(std::move(given), ground);
  const Target& first = *lane.casts.front().target;
  Pass pass;
  pass.id = id_at("pass", ground.lake.projection.to_lonlat(point_along(begun_at_north(lane.way), 0.5)));
  pass.phase = ground.phase.name;
  pass.lane = lane.way;
  pass.cast_side = lane.side;
  pass.boat_depth = {Metres(to_2(lane.depth.first.value())), Metres(to_2(lane.depth.second.value()))};
  pass.places = lane.casts.size();
  pass.why = mean_why(lane);
  pass.score = product_of(pass.why);
  pass.not_assessed = first.not_assessed;
  pass.confidence = first.feature->confidence;
  fill_covered(pass, lane, ground.surroundings);
  fill_measures(pass, lane, ground);
  pass.cautions = cautions_along(ground.lake, ground.features, lane.way, lane.depth.first, ground.options);
  if (const auto adrift = ground.boats.drift().from(lane.way)) {
    pass.cautions.push_back(grounding_words(*adrift, ground.options));
  }
  ground.weather.add_caution(lane.way[lane.way.size() / 2], ground.options.units, pass.cautions);
  pass.reason_words =
      fmt::format("{}: {} of water at the {}{}.", way_words(pass, ground, against_wind(lane, ground)),
                  length_range_text(pass.target_depth.first, pass.target_depth.second, ground.options.units),
                  kind_words(pass.kinds), why_words(pass.why, ground.options.units));
  return pass;
}

}  // namespace castplan
