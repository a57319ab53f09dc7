// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

#include "support/detecting.hpp"
#include "support/noise.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

using Depth = std::function<double(XY)>;

/// A round lake with walls and this floor.
Lake round_lake(const Depth& depth, Metres shore = Metres(400), Metres cell = Metres(5)) {
  return lake_of(filled(frame_about(shore + 4.0 * cell, cell), [&](XY at) {
    return std::hypot(at.x, at.y) >= shore.value() ? static_cast<double>(kLand.value()) : depth(at);
  }));
}

std::vector<Feature> saddles(const Lake& lake) { return of_kind(detect(lake), Kind::saddle); }
const Saddle& known(const Feature& feature) { return std::get<Saddle>(feature.details); }

Depth humps_on(double floor, std::vector<Gauss> humps) {
  return [floor, humps](XY at) {
    double depth = floor;
    for (const Gauss& hump : humps) depth -= gauss_at(hump, at);
    return depth;
  };
}

/// The deepest place along a line between two shares of it, looked for every centimetre.
XY deepest_between(const Depth& depth, XY from, XY to) {
  XY best = from;
  const double size = distance(from, to).value();
  for (double along = 0; along <= size; along += 0.01) {
    const XY at = from + (to - from) * (along / size);
    if (depth(at) > depth(best)) best = at;
  }
  return best;
}

}  // namespace

TEST_CASE("a saddle stands half-way between two equal Gaussian humps") {
  // humps of 6 m, sigma 40 m, at (+-60, 0) on 10 m: on the axis of symmetry both add up, so the pass is at (0, 0),
  // 10 - 2 * 6 exp(-60^2 / (2 * 40^2)) deep; across it the floor is 10 - 12 exp(-(60^2 + y^2) / (2 * 40^2))
  const Depth depth = humps_on(10, {{{-60, 0}, Metres(6), Metres(40)}, {{60, 0}, Metres(6), Metres(40)}});
  const auto found = saddles(round_lake(depth));
  REQUIRE(found.size() == 1);
  const double pass = 10 - 12 * std::exp(-60.0 * 60 / (2 * 40 * 40));
  CHECK(known(found[0]).depth.value() == Approx(pass).margin(0.03));
  CHECK(distance(found[0].anchor, {0, 0}) < Metres(5));
  CHECK(known(found[0]).relief.value() == Approx(depth({0, 100}) - pass).margin(0.05));
  REQUIRE(std::get<Points>(found[0].geometry).size() == 1);
  for (const SaddleSide& side : known(found[0]).sides) {
    CHECK(side.what == Joined::hump);
    CHECK(std::abs(side.place.x) == Approx(60).margin(6));
    CHECK(side.id.rfind("hump-", 0) == 0);
  }
  CHECK(known(found[0]).sides[0].id != known(found[0]).sides[1].id);
}

TEST_CASE("the saddle of two unequal humps is the deepest place on the line that joins their tops") {
  // both humps are round, so that on the line through their middles the floor is level across it
  const XY along{0.6, 0.8};
  const Gauss low{along * -70, Metres(4), Metres(35)}, high{along * 60, Metres(7), Metres(45)};
  const Depth depth = humps_on(11, {low, high});
  const XY place = deepest_between(depth, low.at, high.at);
  const auto found = saddles(round_lake(depth));
  REQUIRE(found.size() == 1);
  CHECK(known(found[0]).depth.value() == Approx(depth(place)).margin(0.04));
  CHECK(distance(found[0].anchor, place) < Metres(7.1));
  // the same at 2 m cells, nearer
  const auto fine = saddles(round_lake(depth, Metres(300), Metres(2)));
  REQUIRE(fine.size() == 1);
  CHECK(known(fine[0]).depth.value() == Approx(depth(place)).margin(0.01));
  CHECK(distance(fine[0].anchor, place) < Metres(3));
}

TEST_CASE("a hump joined to the shore by a bar") {
  // a bar along the x axis with sides exp(-y^2 / (2 * 20^2)); its crest has a hump at x = 100 and a dip at x = 200
  const auto crest = [](double x) {
    const auto bell = [x](double at) { return std::exp(-(x - at) * (x - at) / (2 * 30.0 * 30)); };
    return (4 + 1.5 * bell(100) - 1.5 * bell(200)) / (1 + std::exp(-(x - 20) / 10));
  };
  const Depth depth = [crest](XY at) { return 8 - crest(at.x) * std::exp(-at.y * at.y / (2 * 20.0 * 20)); };
  const XY place = deepest_between(depth, {110, 0}, {300, 0});
  const auto found = saddles(round_lake(depth));
  REQUIRE(found.size() == 1);
  CHECK(known(found[0]).depth.value() == Approx(depth(place)).margin(0.06));  // the axis runs between two rows of cells
  CHECK(distance(found[0].anchor, place) < Metres(7.1));
  CHECK(known(found[0]).relief.value() == Approx(8 - depth(place)).margin(0.08));
  int humps = 0, shores = 0;
  for (const SaddleSide& side : known(found[0]).sides) {
    humps += side.what == Joined::hump ? 1 : 0;
    shores += side.what == Joined::shore ? 1 : 0;
  }
  CHECK(humps == 1);
  CHECK(shores == 1);
}

TEST_CASE("a bar from shore to shore parts two pools, and its lowest place is their saddle") {
  // the crest, along x = 0, lies 9 - 5 (1 - exp(-y^2 / (2 * 60^2)) / 2) deep: 6.5 m at y = 0
  const Depth depth = [](XY at) {
    return 9 - 5 * std::exp(-at.x * at.x / (2 * 25.0 * 25)) * (1 - 0.5 * std::exp(-at.y * at.y / (2 * 60.0 * 60)));
  };
  const auto found = saddles(round_lake(depth));
  REQUIRE(found.size() == 1);
  CHECK(known(found[0]).depth.value() == Approx(6.5).margin(0.03));
  CHECK(known(found[0]).relief.value() == Approx(2.5).margin(0.05));
  CHECK(distance(found[0].anchor, {0, 0}) < Metres(5));
  for (const SaddleSide& side : known(found[0]).sides) CHECK(side.what == Joined::pool);
}

TEST_CASE("a saddle stands at least 1 m over the floor beside it") {
  // two ridges of 4 m end to end along y = 0, 120 m apart, over a sill that is this much higher than the floor
  const auto count = [](double bridge) {
    const Depth depth = [bridge](XY at) {
      const double crest = 4 - (4 - bridge) * std::exp(-at.x * at.x / (2 * 40.0 * 40));
      const double ends = 1 / (1 + std::exp((std::abs(at.x) - 200) / 10));
      return 10 - crest * ends * std::exp(-at.y * at.y / (2 * 25.0 * 25));
    };
    return saddles(round_lake(depth)).size();
  };
  CHECK(count(0.9) == 0);
  CHECK(count(1.2) == 1);
}

TEST_CASE("no saddle where nothing bridges") {
  const Gauss lone{{40, 30}, Metres(5), Metres(40)};
  CHECK(saddles(lake_of(bowl(Metres(400), Metres(20), Metres(5), Metres(50)))).empty());
  CHECK(saddles(round_lake(humps_on(10, {lone}))).empty());
  // a hump on an even slope of 2, 5 and 10 %: the pass above it is no bridge
  for (const double grade : {0.02, 0.05, 0.10}) {
    INFO("grade " << grade);
    CHECK(saddles(round_lake([&](XY at) { return 45 + grade * at.x - gauss_at(lone, at); })).empty());
    CHECK(saddles(round_lake([&](XY at) { return 45 + grade * at.x; })).empty());
  }
}

TEST_CASE("what the edge of the map cuts is no saddle, and what it hides makes one uncertain") {
  const Depth depth = humps_on(10, {{{-60, 0}, Metres(6), Metres(40)}, {{60, 0}, Metres(6), Metres(40)}});
  // the same humps on a map without any shore that ends 60 m from the pass on one side
  const auto cut_at = [&](double south) {
    return saddles(lake_of(filled(frame_about(Metres(300), Metres(5)), [&](XY at) {
      return at.y < south ? static_cast<double>(kUnknown.value()) : depth(at);
    })));
  };
  const auto seen = cut_at(-60);
  REQUIRE(seen.size() == 1);
  CHECK(known(seen[0]).depth.value() == Approx(10 - 12 * std::exp(-1.125)).margin(0.03));
  CHECK(seen[0].confidence <= 0.5);
  // along the very edge every place is a pass with one flank
  CHECK(cut_at(-2.5).empty());
}

TEST_CASE("a bridge to an island") {
  // an island of 40 m and a bar from it to the wall of the lake: 4 m crest on 10 m
  const auto found = saddles(round_lake([](XY at) {
    const double r = std::hypot(at.x, at.y);
    if (r < 40) return static_cast<double>(kLand.value());
    return at.x < 0 ? 10.0
                    : 10 - (6 - 2 * std::exp(-(at.x - 220) * (at.x - 220) / 5000)) *
                               std::exp(-at.y * at.y / (2 * 20.0 * 20));
  }));
  REQUIRE(found.size() == 1);
  CHECK(known(found[0]).depth.value() == Approx(6).margin(0.06));
  CHECK(distance(found[0].anchor, {220, 0}) < Metres(7.1));
  for (const SaddleSide& side : known(found[0]).sides) CHECK(side.what == Joined::shore);
}

TEST_CASE("noise of the survey neither hides a saddle nor makes one") {
  const unsigned seed = GENERATE(1U, 2U, 3U, 4U, 5U);
  const bool correlated = GENERATE(false, true);
  INFO("seed " << seed << (correlated ? ", correlated over 25 m" : ", white"));
  const auto noisy_lake = [&](Grid<Metres32> values) {
    return lake_of(noisy(std::move(values), 0.15, correlated, seed));
  };
  // the two equal humps: 2 m and more on all sides of their pass
  const Gauss west{{-60, 0}, Metres(6), Metres(40)}, east{{60, 0}, Metres(6), Metres(40)};
  const auto found = saddles(noisy_lake(filled(frame_about(Metres(420), Metres(5)), [&](XY at) {
    if (std::hypot(at.x, at.y) >= 400) return static_cast<double>(kLand.value());
    return 10 - gauss_at(west, at) - gauss_at(east, at);
  })));
  REQUIRE(found.size() == 1);
  CHECK(distance(found[0].anchor, {0, 0}) < Metres(25));
  CHECK(known(found[0]).depth.value() == Approx(10 - 12 * std::exp(-1.125)).margin(0.4));
  CHECK(found[0].confidence >= 0.8);
  CHECK(saddles(noisy_lake(bowl(Metres(400), Metres(20), Metres(5), Metres(50)))).empty());
  CHECK(saddles(noisy_lake(disc(Metres(400), Metres(6), Metres(5), Metres(50)))).empty());
  CHECK(saddles(noisy_lake(gaussian_hump(Metres(10), west, Metres(400), Metres(5)))).empty());
}
