// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Waves and the edge of the weeds as factors, and the first spots spread over the lake, on a round lake with a flat
// floor and one break all round: every part of its rim is as good as any other but for the wind. Waves there follow
// from the chord of a circle by the published formulas (effective fetch: Shore Protection Manual, as in Rogala 1997;
// waves: 1984, eq. 3-39).
#include "castplan/season/factors_of_day.hpp"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "castplan/season/roughness.hpp"
#include "castplan/spots/rank.hpp"
#include "spots/round_waves.hpp"
#include "spots/spread.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

constexpr double kShore = 800, kFloor = 9;

const Lake& round_lake() {
  static const Lake lake =
      lake_of(ring_break(Metres(kShore - 120), Metres(2.5), Metres(kFloor), Metres(20), Metres(kShore), Metres(10)));
  return lake;
}

const Reason* reason_of(const Spot& spot, std::string_view factor) {
  for (const Reason& each : spot.why) {
    if (each.factor == factor) return &each;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("a known wind makes waves a factor, and the other weights share what it leaves") {
  for (const Phase& phase : species("muskellunge").phases) {
    const Phase windy = for_wind(phase);
    CAPTURE(phase.name);
    REQUIRE(windy.weights.size() == phase.weights.size() + (phase.waves.points.empty() ? 0 : 1));
    double sum = 0;
    for (const auto& weight : windy.weights) sum += weight.second.value;
    CHECK(sum == Approx(phase.weights.empty() ? 0 : 1));
    for (std::size_t i = 0; i < phase.weights.size(); ++i) {
      const double left = phase.waves.points.empty() ? 1 : 1 - phase.waves_weight;
      CHECK(windy.weights[i].second.value == Approx(phase.weights[i].second.value * left));
    }
  }
}

TEST_CASE("where the edge of the weeds is known, how far from it the target lies is a factor of its own") {
  const Phase& phase = *phase_named(species("muskellunge"), "summer");
  const Phase weedy = for_weed_edge(phase, Metres(5));
  REQUIRE(weedy.weights.size() == phase.weights.size() + 1);
  double sum = 0;
  for (const auto& weight : weedy.weights) sum += weight.second.value;
  CHECK(sum == Approx(1));
  const auto spots = rank_spots(round_lake(), detect(round_lake()), weedy, {}).spots;
  REQUIRE_FALSE(spots.empty());
  for (const Spot& spot : spots) {
    const Reason* edge = reason_of(spot, "weed edge");
    REQUIRE(edge != nullptr);
    CHECK(edge->value == Approx(spot.target_depth.value() - 5).margin(1e-9));
    CHECK(edge->suitability == Approx(phase.depth_below_weed_edge(edge->value)).margin(5e-5));
    REQUIRE(reason_of(spot, "depth") != nullptr);  // stays beside it
  }
  // a species without such a curve is as it was
  const Phase& cold = *phase_named(species("muskellunge"), "cold");
  CHECK(for_weed_edge(cold, Metres(5)).weights.size() == cold.weights.size());
}

TEST_CASE("of edges that are otherwise the same the one that the wind blows on to comes first") {
  SpotOptions options;
  options.wind = Wind{MetresPerSecond(6), MetresPerSecond(6), Degrees(270)};
  const Phase phase = for_wind(*phase_named(species("muskellunge"), "summer"));
  const auto spots = rank_spots(round_lake(), detect(round_lake()), phase, options).spots;
  REQUIRE(spots.size() == 10);
  CHECK(spots.front().aim.x > 0);  // the east side
  for (const Spot& spot : spots) {
    const Reason* waves = reason_of(spot, "waves");
    REQUIRE(waves != nullptr);
    CAPTURE(spot.rank, spot.aim.x, spot.aim.y);
    // a printed height is to the centimetre; the rim takes a little off the mean depth upwind
    CHECK(waves->value == Approx(wave_height(spot.aim, *options.wind, kShore, kFloor)).margin(0.015));
    CHECK(waves->suitability == Approx(phase.waves(waves->value)).margin(5e-5));
  }
}

TEST_CASE("without a wind nothing is said of waves") {
  const auto spots =
      rank_spots(round_lake(), detect(round_lake()), *phase_named(species("muskellunge"), "summer"), {}).spots;
  REQUIRE(spots.size() == 10);
  for (const Spot& spot : spots) {
    CHECK(reason_of(spot, "waves") == nullptr);
    CHECK(std::find(spot.not_assessed.begin(), spot.not_assessed.end(), "waves") == spot.not_assessed.end());
  }
}

TEST_CASE("the first spots lie in several parts of the lake, but are as many where there is no choice") {
  SpotOptions options;
  // waves that grow to the east would put every spot there
  options.wind = Wind{MetresPerSecond(6), MetresPerSecond(6), Degrees(270)};
  const Phase phase = for_wind(*phase_named(species("muskellunge"), "summer"));
  const auto spots = rank_spots(round_lake(), detect(round_lake()), phase, options).spots;
  std::array<int, 9> in_part{};
  for (const Spot& spot : spots) {
    const auto third = [](double at) {
      return static_cast<std::size_t>(std::clamp(3 * (at + kShore) / (2 * kShore), 0.0, 2.0));
    };
    ++in_part[3 * third(spot.aim.y) + third(spot.aim.x)];
  }
  CHECK(*std::max_element(in_part.begin(), in_part.end()) <= 4);
  // one kind of edge alone: no more than five of it would leave five spots
  CHECK(spots.size() == 10);
}

TEST_CASE("four in one part and five on one kind are enough") {
  Feature edge{}, bar{};
  edge.kind = Kind::drop_off;
  bar.kind = Kind::hump;
  const auto at = [](const Feature& feature, double x, double y) {
    Target target{};
    target.feature = &feature;
    target.at = {x, y};
    return target;
  };
  Spread spread(round_lake());
  for (int i = 0; i < 4; ++i) {
    CHECK_FALSE(spread.has_enough_like(at(edge, 700, 0)));
    spread.add(at(edge, 700, 0));
  }
  CHECK(spread.has_enough_like(at(bar, 700, 0)));
  CHECK_FALSE(spread.has_enough_like(at(edge, -700, 0)));
  spread.add(at(edge, -700, 0));
  CHECK(spread.has_enough_like(at(edge, 0, 700)));
  CHECK_FALSE(spread.has_enough_like(at(bar, 0, 700)));
}
