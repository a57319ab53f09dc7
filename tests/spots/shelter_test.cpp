// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Spots and the wind of the day on a round lake with a flat floor and a rim: how far water goes on upwind is the chord
// of a circle, and waves follow from it by the published formulas (effective fetch: Shore Protection Manual, as in
// Rogala 1997; waves: Shore Protection Manual 1984, eq. 3-39), which tests/terrain holds against their printed values.
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "castplan/features/detect.hpp"
#include "castplan/season/roughness.hpp"
#include "castplan/spots/rank.hpp"
#include "castplan/terrain/fetch.hpp"
#include "castplan/terrain/waves.hpp"
#include "spots/round_waves.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

constexpr double kShore = 6000, kFloor = 9;

const Phase& summer() { return *phase_named(species("muskellunge"), "summer"); }

/// Its rim breaks from 2.5 to 9 m at 200 m from the shore, all round.
const Lake& wide_lake() {
  static const Lake lake =
      lake_of(ring_break(Metres(kShore - 200), Metres(2.5), Metres(kFloor), Metres(20), Metres(kShore), Metres(20)));
  return lake;
}

const std::vector<Feature>& its_features() {
  static const std::vector<Feature> features = find_features(Ground{wide_lake(), {}, {}, {}, {}, {}, {}}, {});
  return features;
}

PhaseSpots spots_in(std::optional<Wind> wind, std::string_view boat = "motor") {
  SpotOptions options;
  options.most = 40;
  options.wind = wind;
  options.rough = rough_limits(boat);
  return rank_spots(wide_lake(), its_features(), summer(), options);
}

Wind wind_of(double speed, double from) { return {MetresPerSecond(speed), MetresPerSecond(speed), Degrees(from)}; }

XY from_middle(XY at) {
  const Frame& frame = wide_lake().depth.frame();
  const XY low = frame.centre({frame.rows - 1, 0}), high = frame.centre({0, frame.cols - 1});
  return at - (low + high) * 0.5;
}

bool is_named(const std::string& words, int rank) {
  const std::string list = words.substr(std::min(words.find(':'), words.size()));
  const std::string number = " " + std::to_string(rank);
  return list.find(number + ",") != std::string::npos || list.find(number + ".") != std::string::npos;
}

}  // namespace

TEST_CASE("where the waves go beyond what the boat can take no spot and no pass is put") {
  const double from = GENERATE(0.0, 90.0, 225.0);
  const Wind wind = wind_of(7.4, from);  // a canoe: waves of 0.3 m are the limit, and winds of 7.5 m/s
  const double limit = rough_limits("canoe").stop_height.value();
  const PhaseSpots calm = spots_in({}, "canoe");
  const PhaseSpots windy = spots_in(wind, "canoe");
  INFO("wind from " << from);
  const auto height = [&](XY at) { return wave_height(from_middle(at), wind, kShore, kFloor); };
  // the calm day has spots on both sides, some of them in waves by far too high
  REQUIRE(std::any_of(calm.spots.begin(), calm.spots.end(),
                      [&](const Spot& spot) { return height(spot.boat) > limit * 1.15; }));
  REQUIRE_FALSE(windy.spots.empty());
  for (const Spot& spot : windy.spots) CHECK(height(spot.boat) < limit * 1.05);
  for (const Pass& pass : windy.passes) {
    for (const XY at : pass.lane) CHECK(height(at) < limit * 1.05);
  }
  // near the limit a spot says so
  for (const Spot& spot : windy.spots) {
    const bool told = std::any_of(spot.cautions.begin(), spot.cautions.end(), [](const std::string& each) {
      return each.find("near what the boat can take") != std::string::npos;
    });
    CHECK(told);  // 7.4 m/s is a canoe's caution by itself
  }
}

TEST_CASE("a motor boat may lie where a canoe may not") {
  const Wind wind = wind_of(7.4, 90);
  const PhaseSpots motor = spots_in(wind, "motor");
  CHECK(std::any_of(motor.spots.begin(), motor.spots.end(), [&](const Spot& spot) {
    return wave_height(from_middle(spot.boat), wind, kShore, kFloor) > rough_limits("canoe").stop_height.value();
  }));
}

TEST_CASE("a wind beyond the boat leaves nothing, and says why; gusts count") {
  const Wind storm = wind_of(10, 90);
  Wind gusty = wind_of(6, 90);
  gusty.gust = MetresPerSecond(10);
  for (const Wind& wind : {storm, gusty}) {
    const PhaseSpots none = spots_in(wind);
    CHECK(none.spots.empty());
    CHECK(none.passes.empty());
    CHECK(none.why_none.find("more than the boat can take") != std::string::npos);
  }
  CHECK_FALSE(spots_in(wind_of(6, 90)).spots.empty());
}

TEST_CASE("without a forecast each wind has its sheltered spots, best first") {
  const PhaseSpots calm = spots_in({}, "canoe");
  const std::vector<std::string> told = shelter_words(calm.shelter, Units::metric);
  REQUIRE(told.size() == 4);
  const std::array<const char*, 4> names{"north", "east", "south", "west"};
  const RoughLimits limits = rough_limits("canoe");
  for (std::size_t i = 0; i < names.size(); ++i) {
    const std::string& words = told[i];
    INFO(words);
    CHECK(words.find(std::string("from the ") + names[i] + ":") != std::string::npos);
    const Wind wind = wind_of(limits.caution_wind.value(), 90.0 * static_cast<double>(i));
    const auto height = [&](const Spot& spot) { return wave_height(from_middle(spot.boat), wind, kShore, kFloor); };
    double highest = 0;
    for (const Spot& spot : calm.spots) highest = std::max(highest, height(spot));
    const double lee = std::min(highest, limits.caution_height.value()) / 2;
    std::vector<int> expected;
    for (const Spot& spot : calm.spots) {
      // near the limit either answer will do
      if (std::abs(height(spot) - lee) < 0.05 * lee) continue;
      const bool named = is_named(words, spot.rank);
      if (height(spot) > lee) CHECK_FALSE(named);
      if (height(spot) < lee && expected.size() < 4) expected.push_back(spot.rank);
    }
    REQUIRE(expected.size() == 4);
    for (const int rank : expected) {
      const Spot& spot = calm.spots[static_cast<std::size_t>(rank) - 1];
      INFO("spot " << rank << ", waves of " << height(spot) << " m, lee " << lee);
      CHECK(is_named(words, rank));
    }
  }
}
