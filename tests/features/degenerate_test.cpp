// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0

// Lakes at the limits of what a lake can be: nothing is found in them that is not there, and nothing breaks.

#include <catch2/catch.hpp>
#include <cmath>

#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

std::vector<Feature> shapes_of(const Lake& lake) {
  std::vector<Feature> all;
  const Ground ground{lake, {}, {}, {}, {}, {}, {}};
  for (const auto find : {find_points, find_narrows, find_bays}) {
    for (Feature& feature : find(ground, {})) all.push_back(std::move(feature));
  }
  return all;
}

Grid<Metres32> values(int rows, int cols, Metres cell, float fill) {
  return Grid<Metres32>(Frame{{0, 0}, cell, rows, cols}, Metres32(fill));
}

}  // namespace

TEST_CASE("a lake of one cell, alone or among land or the unknown") {
  CHECK(shapes_of(lake_of(values(1, 1, Metres(5), 3))).empty());
  for (const Metres32 around : {kLand, kUnknown}) {
    Grid<Metres32> one = values(9, 9, Metres(5), around.value());
    one[Cell{4, 4}] = Metres32(2);
    CHECK(shapes_of(lake_of(one)).empty());
  }
}

TEST_CASE("water all over the map has no shore, and so no bay and no narrows") {
  CHECK(shapes_of(lake_of(values(200, 200, Metres(5), 4))).empty());
}

TEST_CASE("a lake of one row, or one column") {
  CHECK(shapes_of(lake_of(values(1, 400, Metres(5), 4))).empty());
  CHECK(shapes_of(lake_of(values(400, 1, Metres(5), 4))).empty());
}

TEST_CASE("a ring of even water round an island") {
  CHECK(shapes_of(lake_of(filled(frame_about(Metres(420), Metres(5)), [](XY at) {
          const double r = std::hypot(at.x, at.y);
          return r < 400 && r > 150 ? 4.0 : static_cast<double>(kLand.value());
        }))).empty());
}

TEST_CASE("a cross of channels of one cell is all shore, and nothing else") {
  CHECK(shapes_of(lake_of(filled(frame_about(Metres(300), Metres(5)), [](XY at) {
          const bool cross = std::abs(at.x - 2.5) < 2.4 || std::abs(at.y - 2.5) < 2.4;
          return cross && std::hypot(at.x, at.y) < 280 ? 2.0 : static_cast<double>(kLand.value());
        }))).empty());
}

TEST_CASE("two lakes on one map: each is read on its own") {
  // the keyhole's bay in the western one, nothing in the round eastern one
  const Lake lake = lake_of(filled(frame_about(Metres(900), Metres(4)), [](XY at) {
    const double x = at.x + 400;
    const bool west = std::abs(x) < 350 && at.y < 0 && at.y > -400;
    const bool neck = std::abs(x) < 30 && at.y >= 0 && at.y < 100;
    const bool round = std::hypot(x, at.y - 160) < 80 || std::hypot(at.x - 500, at.y) < 250;
    return west || neck || round ? 3.0 : static_cast<double>(kLand.value());
  }));
  REQUIRE(lake.bodies.size() == 2);
  const auto bays = of_kind(shapes_of(lake), Kind::bay);
  REQUIRE(bays.size() == 1);
  CHECK(bays[0].anchor.x < 0);
}

TEST_CASE("a lake that the map's edge cuts: its straight side is no shore of anything") {
  // half of a round bowl; the western half is off the grid
  const Frame frame{{0, 400}, Metres(5), 160, 80};
  const Lake lake = lake_of(filled(frame, [](XY at) {
    const double share = dot(at, at) / 90000;
    return share < 1 ? 12 * (1 - share) : static_cast<double>(kLand.value());
  }));
  CHECK(shapes_of(lake).empty());
}
