// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/doubt.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "castplan/features/weed_density.hpp"

namespace castplan {

namespace {

constexpr double kMappedTo = 3;    // metres: mapped cover lies where it was drawn, give or take a hand-held receiver
constexpr double kWavesOff = 0.1;  // of their height, from place to place; what is off everywhere moves no rank
constexpr Metres kWeedScale(20);   // of the slope that thins them

/// Standard deviation of the difference between the errors of two depths so far apart.
double difference_sd(Metres error, double apart) {
  return error.value() * std::sqrt(2 * (1 - std::exp(-apart / kErrorReach.value())));
}

/// Of the grade in per cent between two depths; a grade that is the middle of many profiles errs less.
double grade_sd(Metres error, double apart, double independent) {
  return 100 * difference_sd(error, apart) / std::max(apart, 1.0) / std::sqrt(std::max(1.0, independent));
}

double sd_of_edge(const std::vector<Neighbour>& near, Metres error, double cell) {
  double sd = grade_sd(error, 2 * cell, 1);
  for (const Neighbour& each : near) {
    const auto* edge = std::get_if<DropOff>(&each.feature->details);
    if (edge == nullptr || each.distance > kOnEdge || !(edge->grade_pct > 0)) continue;
    const double across = 100 * edge->relief.value() / edge->grade_pct;
    sd = std::min(sd, grade_sd(error, across, 0.5 * edge->length.value() / kErrorReach.value()));
  }
  return sd;
}

/// The nearest break within a cast, whose being there the score leans on.
const Feature* nearest_break(const std::vector<Neighbour>& near) {
  const auto found = std::find_if(near.begin(), near.end(), [](const Neighbour& each) {
    return each.distance <= kOnEdge && each.feature->kind == Kind::drop_off;
  });
  return found != near.end() ? found->feature : nullptr;
}

/// Chances that each further kind lies within a cast, for those whose place could be off by enough to matter; the value
/// loses those that it counts. Edges of the floor move by the error over the grade, mapped things by a receiver's.
std::vector<double> maybe_kinds(const Target& target, const std::vector<Neighbour>& near, Metres error,
                                double grade_pct, double& value) {
  std::map<Kind, Metres> nearest;
  for (const Neighbour& each : near) nearest.try_emplace(each.feature->kind, each.distance);
  nearest.erase(target.feature->kind);
  std::vector<double> chances;
  for (const auto& [kind, away] : nearest) {
    const bool of_the_floor = !is_cover(kind) && kind != Kind::inflow;
    const double off = of_the_floor ? kMappedTo + 100 * error.value() / grade_pct : kMappedTo;
    const double within = 0.5 * std::erfc((away - kWithinCast).value() / off / std::sqrt(2.0));
    if (within < 0.01 || within > 0.99) continue;
    if (away <= kWithinCast) value -= 1;
    chances.push_back(within);
  }
  return chances;
}

bool weeds_move(const Feature& feature) {
  const auto* weeds = std::get_if<WeedLine>(&feature.details);
  return weeds != nullptr && weeds->source != WeedSource::mapped;
}

Doubt doubt_of_reason(const Reason& reason, const Target& target, const Lake& lake, const std::vector<Neighbour>& near,
                      const Phase& phase) {
  const Metres error = error_at(lake, target.at);
  const double cell = lake.depth.frame().cell.value();
  Doubt doubt;
  doubt.value = reason.value;
  doubt.weight = reason.weight;
  const bool weeds_near = std::any_of(near.begin(), near.end(), [](const Neighbour& each) {
    return each.distance <= kWithinCast && weeds_move(*each.feature);
  });
  if (reason.factor == words_of(Factor::depth)) {
    doubt.factor = Factor::depth;
    doubt.curve = &phase.depth;
  } else if (reason.factor == words_of(Factor::edge) && reason.unit == "weed density") {
    doubt.factor = Factor::edge;
    doubt.curve = &phase.weed_density;
    // between bare and full the slope decides, and the slope is not known well
    const bool thinned = reason.value > 0 && reason.value < 1;
    doubt.sd = thinned ? std::min(0.3, grade_sd(error, kWeedScale.value(), 1) / (kSteepToWeeds - kGentleToWeeds)) : 0.0;
    doubt.bare = grade_at(lake, target.at);
    doubt.bare_curve = weeds_near ? &phase.edge_grade : nullptr;
  } else if (reason.factor == words_of(Factor::edge)) {
    doubt.factor = Factor::edge;
    doubt.curve = &phase.edge_grade;
    doubt.sd = sd_of_edge(near, error, cell);
    if (nearest_break(near) != nullptr) doubt.lost = grade_at(lake, target.at);
  } else if (reason.factor == words_of(Factor::deep_water)) {
    doubt.factor = Factor::deep_water;
    doubt.curve = &phase.deep_water;
    doubt.sd =
        Metres(reason.value) < kDeepSeen ? reason.value * difference_sd(error, reason.value) / kDeeper.value() : 0.0;
  } else if (reason.factor == words_of(Factor::meeting_edges)) {
    doubt.factor = Factor::meeting_edges;
    doubt.curve = &phase.meeting;
    doubt.maybe = maybe_kinds(target, near, error, std::max(grade_at(lake, target.at), 5.0), doubt.value);
    doubt.bare = std::max(1.0, doubt.value - 1);
    if (nearest_break(near) != nullptr && doubt.value > 1) doubt.lost = doubt.value - 1;
    doubt.bare_curve = weeds_near && reason.value > 1 ? &phase.meeting : nullptr;
  } else if (reason.factor == words_of(Factor::light)) {
    doubt.factor = Factor::light;
    doubt.curve = &phase.light;
    doubt.sd = reason.value * phase.light_lost * error.value();
  } else if (reason.factor == words_of(Factor::weed_edge)) {
    doubt.factor = Factor::weed_edge;
    doubt.curve = &phase.depth_below_weed_edge;
  } else if (reason.factor == words_of(Factor::waves)) {
    doubt.factor = Factor::waves;
    doubt.curve = &phase.waves;
    doubt.sd = kWavesOff * reason.value;
  } else {
    doubt.factor = Factor::cover;
    doubt.curve = &phase.cover;
    doubt.sd = kMappedTo;
  }
  return doubt;
}

}  // namespace

TargetDoubt doubt_of(const Target& target, const Lake& lake, const Surroundings& surroundings, const Phase& phase) {
  const std::vector<Neighbour> near = surroundings.near(target.at, kWithinCast + Metres(20));
  TargetDoubt out{target.at, error_at(lake, target.at), std::max(grade_at(lake, target.at), 1.0), 0, {}};
  if (const Feature* edge = nearest_break(near)) out.loss = 1 - edge->confidence;
  for (const Reason& reason : target.why) out.doubts.push_back(doubt_of_reason(reason, target, lake, near, phase));
  return out;
}

}  // namespace castplan
