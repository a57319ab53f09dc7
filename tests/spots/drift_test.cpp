// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Where the wind sets a boat whose engine fails, on round lakes with walls: times are lengths of chords over the speed.
#include "spots/drift.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <sstream>

#include "castplan/geo/planar.hpp"
#include "castplan/spots/rank.hpp"
#include "spots/boat.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

const Phase& summer() { return *phase_named(species("muskellunge"), "summer"); }

constexpr double kShore = 330;

Lake ring_lake() {
  return lake_of(ring_break(Metres(200), Metres(2.5), Metres(9), Metres(20), Metres(kShore), Metres(5)));
}

SpotOptions in_wind(double speed, double from) {
  SpotOptions options;
  options.most = 40;
  options.wind = Wind{MetresPerSecond(speed), MetresPerSecond(speed), Degrees(from)};
  return options;
}

std::vector<Spot> spots_in(const Lake& lake, const SpotOptions& options,
                           const std::vector<MappedStructure>& structure = {},
                           const std::vector<MappedClosure>& closures = {}) {
  return rank_spots(lake, find_features(Ground{lake, {}, {}, {}, structure, closures, {}}, {}), summer(), options)
      .spots;
}

/// The sentence about the engine, or nothing.
std::string adrift(const std::vector<std::string>& cautions) {
  for (const std::string& each : cautions) {
    if (each.find(" sets the boat onto ") != std::string::npos) return each;
  }
  return {};
}

double minutes_in(const std::string& words) {
  std::istringstream rest(words.substr(words.find(" in about ") + 10));
  double minutes = -1;
  rest >> minutes;
  return minutes;
}

/// Metres from a place down a wind to the circle of the shore.
double to_shore(XY at, double from) {
  const double way = (from + 180) * std::numbers::pi / 180;
  const XY down{std::sin(way), std::cos(way)};
  const double along = dot(at, down);
  return -along + std::sqrt(along * along - dot(at, at) + kShore * kShore);
}

}  // namespace

TEST_CASE("no wind, no word of drifting; nor in wind that takes more than ten minutes to the shore") {
  const Lake lake = ring_lake();
  for (const Spot& spot : spots_in(lake, {})) CHECK(adrift(spot.cautions).empty());
  // 5 % of 0.3 m/s is 9 m in ten minutes: less than from any place of the boat
  for (const Spot& spot : spots_in(lake, in_wind(0.3, 200))) {
    CHECK(adrift(spot.cautions).empty());
    CHECK(spot.hold == "motor");
  }
}

TEST_CASE("a spot that the wind takes to the shore within ten minutes says so, with the time of the chord") {
  const Lake lake = ring_lake();
  int warned = 0, safe = 0;
  for (const double from : {0.0, 100.0, 230.0}) {
    for (const double speed : {5.0, 8.0}) {
      for (const Spot& spot : spots_in(lake, in_wind(speed, from))) {
        const std::string words = adrift(spot.cautions);
        // 5 % of the wind: the fast end of 3 to 5 %, common practice, no source
        const double minutes = to_shore(spot.boat, from) / (0.05 * speed) / 60;
        INFO(words << " against " << minutes);
        if (std::abs(minutes - 10) < 0.7) continue;  // a cell and the last shallow metres
        CHECK((minutes < 10) == !words.empty());
        (words.empty() ? safe : warned) += 1;
        if (words.empty()) continue;
        CHECK(words.find("onto the shore") != std::string::npos);
        CHECK(minutes_in(words) == Approx(std::floor(minutes)).margin(1));
      }
    }
  }
  CHECK(warned > 0);
  CHECK(safe > 0);
}

TEST_CASE("what lies in the way is named: rock that the boat does not float over, a hazard, closed water") {
  const Lake lake = ring_lake();
  // a wind from the south, and a line of something across the lake 30 m north of the ring's northern spots
  const Lines across{{{-320, 215}, {320, 215}}};
  const Polygons band{{{{-320, 215}, {320, 215}, {320, 240}, {-320, 240}, {-320, 215}}, {}}};
  const SpotOptions windy = in_wind(6, 180);  // 18 m a minute
  const auto named = [&](const std::vector<Spot>& spots, const std::string& what) {
    int count = 0;
    for (const Spot& spot : spots) {
      const std::string words = adrift(spot.cautions);
      const double minutes = (215 - 3 - spot.boat.y) / 18;
      if (minutes < 0.2 || minutes > 9.8 || to_shore(spot.boat, 180) < 215 - spot.boat.y) continue;
      INFO(words << " against " << minutes);
      CHECK(words.find(what) != std::string::npos);
      CHECK(minutes_in(words) == Approx(std::max(1.0, std::floor(minutes))).margin(1));
      ++count;
    }
    return count;
  };
  CHECK(named(spots_in(lake, windy, {{"hazard", "Old pilings", "", "p.shp", across}}), "onto Old pilings") > 0);
  CHECK(named(spots_in(lake, windy, {}, {{"no-entry", "Refuge", "", "", "r.shp", band, true}}), "closed water") > 0);
  // 2.5 m of water over the shelf: a mapped rock there is floated over, and the shore comes first
  for (const Spot& spot : spots_in(lake, windy, {{"rock", "Sunk stones", "", "s.shp", across}})) {
    CHECK(adrift(spot.cautions).find("Sunk stones") == std::string::npos);
  }
}

TEST_CASE("in little water an anchor holds a boat that would drift onto something, and needs no word of the engine") {
  // 3.5 m at most: everywhere an anchor reaches
  const Lake lake = lake_of(ring_break(Metres(200), Metres(1.8), Metres(3.5), Metres(8), Metres(kShore), Metres(4)));
  const auto spots = spots_in(lake, in_wind(8, 90));
  REQUIRE_FALSE(spots.empty());
  int anchored = 0;
  for (const Spot& spot : spots) {
    const double minutes = to_shore(spot.boat, 90) / (0.05 * 8) / 60;
    if (std::abs(minutes - 10) < 0.7) continue;
    CHECK(spot.hold == (minutes < 10 ? "anchor" : "motor"));
    CHECK(adrift(spot.cautions).empty());
    anchored += spot.hold == "anchor" ? 1 : 0;
  }
  CHECK(anchored > 0);
}

TEST_CASE("a pass carries the earliest drift from anywhere on its lane") {
  const Lake lake = ring_lake();
  const auto features = detect(lake);
  const auto passes = rank_spots(lake, features, summer(), in_wind(8, 45)).passes;
  REQUIRE_FALSE(passes.empty());
  for (const Pass& pass : passes) {
    double least = 1e9;
    for (const XY at : resampled(pass.lane, Metres(1))) least = std::min(least, to_shore(at, 45) / (0.05 * 8) / 60);
    if (std::abs(least - 10) < 0.7) continue;
    const std::string words = adrift(pass.cautions);
    CHECK((least < 10) == !words.empty());
    if (!words.empty()) CHECK(minutes_in(words) == Approx(std::floor(least)).margin(1));
  }
}

TEST_CASE("of places that serve alike, the boat is put where the wind sets it onto nothing") {
  // a straight wall that runs north, even water on its deep side; the wind goes north, 150 m in ten minutes
  const Lake lake = lake_of(filled(frame_about(Metres(260), Metres(4)), [](XY at) {
    if (std::abs(at.x) > 240 || std::abs(at.y) > 240) return static_cast<double>(kLand.value());
    return at.x < -4 ? 3.0 : at.x > 4 ? 9.0 : 3 + 6 * (at.x + 4) / 8;
  }));
  const SpotOptions windy = in_wind(5, 180);
  const auto place_with = [&](const std::vector<MappedStructure>& structure) {
    const auto features = find_features(Ground{lake, {}, {}, {}, structure, {}, {}}, {});
    const auto edge =
        std::find_if(features.begin(), features.end(), [](const Feature& each) { return each.kind == Kind::drop_off; });
    REQUIRE(edge != features.end());
    const Surroundings surroundings(lake, features, windy.reach);
    const auto place =
        BoatFinder(lake, features, surroundings, windy).best(Target{&*edge, {0, 0}, Metres(6), {}, {}, 0, {}, 0});
    REQUIRE(place);
    return *place;
  };
  const BoatPlace open = place_with({});
  CHECK_FALSE(open.adrift);
  // a piling 70 m down the wind of just that place
  const XY piling = open.boat + XY{0, 70};
  const BoatPlace moved = place_with({{"hazard", "Piling", "", "p.shp", Points{piling}}});
  CHECK_FALSE(moved.adrift);
  CHECK(std::abs(moved.boat.x - piling.x) > 3);
}
