// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/quantity_text.hpp"
#include "castplan/season/clarity.hpp"
#include "spots/lane.hpp"
#include "spots/passes.hpp"
#include "spots/printed.hpp"
#include "spots/tackle.hpp"

namespace castplan {

namespace {

// All design choices, after the watched habit of the fish to hang over deep water beside their edges in summer.
constexpr Metres kAboveLayer(0.5);  // of the thermocline: the deepest that is fished,
constexpr Metres kBand(2);          // and how far up from there
constexpr Metres kFloorBelow(1);    // the floor lies at least so far under the thermocline
constexpr std::size_t kMostPasses = 2;
constexpr std::size_t kMostTried = 40;  // stretches, best first
constexpr double kConfidence = 0.3;
constexpr double kWeight = 0.3;  // of that confidence in the score

/// Weights of the others shrink to make room; the sum stays 1 to the last printed digit.
void add_confidence(Pass& pass) {
  double sum = kWeight;
  for (Reason& reason : pass.why) sum += reason.weight = to_4(reason.weight * (1 - kWeight));
  pass.why.push_back({"confidence", kConfidence, "of 1", kConfidence, to_4(kWeight + 1 - sum),
                      "open-water fish move: low confidence by design, no source for a place"});
  pass.score = product_of(pass.why);
  pass.confidence = std::min(pass.confidence, kConfidence);
}

/// The deepest that is fished: above the thermocline, where a lure of the phase still runs.
Metres fished_depth(Metres thermocline, const PassGround& ground) {
  Metres deepest(0);
  for (const Lure& lure : ground.phase.lures) deepest = std::max(deepest, lure.run_to);
  const Metres depth = std::min({thermocline - kAboveLayer, ground.options.reach, deepest});
  return Metres(std::floor(depth.value() * 100) / 100);
}

/// The lures of the phase that run somewhere in the band, no deeper than it.
std::vector<Presentation> reaching(const Phase& phase, std::pair<Metres, Metres> band) {
  Phase deep = phase;
  std::erase_if(deep.lures, [&](const Lure& lure) { return lure.run_to < band.first || lure.run_from > band.second; });
  std::vector<Presentation> found;
  for (const Presentation& each : presentations(deep, Metres(HUGE_VAL), Metres(HUGE_VAL))) {
    found.push_back(each);
    found.back().run_to = std::min(each.run_to, band.second);
  }
  return found;
}

/// The places of an edge at the depth that is fished beside it, judged for that.
std::vector<Target> hung_beside(const Stretch& stretch, Metres depth, const PassGround& ground) {
  std::vector<Target> places(stretch.places.begin(), stretch.places.end());
  for (Target& place : places) {
    place.at = (*place.edge)[place.on_edge];
    place.depth = depth;
    place.why.clear();
    place.not_assessed.clear();
    judge(place, ground.lake, ground.surroundings, ground.phase);
  }
  return places;
}

Pass open_water_pass(Lane lane, Metres depth, const PassGround& ground) {
  Pass pass = make_pass(std::move(lane), ground);
  const Units units = ground.options.units;
  add_confidence(pass);
  pass.open_water = true;
  pass.target_depth = {std::max(Metres(0.5), depth - kBand), depth};
  pass.presentations = reaching(ground.phase, pass.target_depth);
  pass.reason_words = fmt::format(
      "{} to the {} beside the {}, casting to the {}, away from it, over deep open water: run lures {} to {} down, "
      "above "
      "the thermocline.",
      distance_text(pass.length, units), compass_words(pass.heading), row_of(pass.kinds.front()).label,
      name_of(pass.cast_side), length_text(pass.target_depth.first, units), length_text(depth, units));
  pass.cautions.emplace_back("Low confidence: fish in open water move, and no survey shows where they are.");
  return pass;
}

}  // namespace

std::vector<Pass> open_water_passes(std::span<const Stretch> stretches, const PassGround& ground) {
  std::vector<Pass> found;
  const auto& open = ground.options.open_water;
  if (!open || clarity_of(open->secchi) != Clarity::clear) return found;
  const Metres depth = fished_depth(open->thermocline, ground);
  if (depth < Metres(1)) return found;
  std::size_t tried = 0;
  for (const Stretch& stretch : stretches) {
    const Kind kind = stretch.places.front().feature->kind;
    if (kind != Kind::weed_line && kind != Kind::hump) continue;
    if (found.size() >= kMostPasses || tried++ == kMostTried) break;
    const std::vector<Target> places = hung_beside(stretch, depth, ground);
    const LaneWish wish{true, open->thermocline + kFloorBelow};
    for (Lane& lane : lanes_past(places, ground, wish)) {
      if (ground.weather.too_rough_along(lane.way)) continue;
      if (found.size() < kMostPasses) found.push_back(open_water_pass(std::move(lane), depth, ground));
    }
  }
  return found;
}

}  // namespace castplan
