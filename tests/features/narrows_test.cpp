// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

std::vector<Feature> narrows_of(const Lake& lake) { return find_narrows(Ground{lake, {}, {}, {}, {}, {}, {}}, {}); }

/// An hourglass along x: half-width 40 + x^2 / 500 about (30, 10), cut off where x is 220 away; 5 m deep.
Grid<Metres32> hourglass(Metres cell, double waist = 40) {
  return filled(frame_about(Metres(300), cell), [waist](XY at) {
    const double x = at.x - 30, y = at.y - 10;
    const bool water = std::abs(x) < 220 && std::abs(y) < waist + x * x / 500;
    return water ? 5.0 : static_cast<double>(kLand.value());
  });
}

}  // namespace

TEST_CASE("an hourglass is narrowest at its waist") {
  const double cell = GENERATE(2.0, 5.0);
  INFO("cells of " << cell << " m");
  const auto found = narrows_of(lake_of(hourglass(Metres(cell))));
  REQUIRE(found.size() == 1);
  const auto& waist = std::get<Narrows>(found[0].details);
  // the shore of unknown height is drawn half-way between centres: a cell over both sides
  CHECK(waist.width.value() == Approx(80).margin(cell));
  CHECK(waist.depth.value() == Approx(5));
  CHECK(found[0].anchor.y == Approx(10).margin(cell / 2 + 0.01));
  // cells hide where the shores are nearest: within half a cell of the waist's width for x^2 / 500 < cell / 2
  CHECK(std::abs(found[0].anchor.x - 30) < std::sqrt(250 * cell) + cell);
  CHECK(found[0].geometry.index() == 0);
}

TEST_CASE("narrows at sub-cell position where the shore has known heights") {
  // a slope of 1 in 10 on both shores: depth = (40 + x^2 / 500 - |y|) / 10, so that the middle is 4 m deep
  const Lake lake = lake_of(filled(frame_about(Metres(300), Metres(5)), [](XY at) {
    if (std::abs(at.x) > 220) return static_cast<double>(kLand.value());
    return (40 + at.x * at.x / 500 - std::abs(at.y)) / 10;
  }));
  const auto found = narrows_of(lake);
  REQUIRE(found.size() == 1);
  CHECK(std::get<Narrows>(found[0].details).width.value() == Approx(80).margin(0.5));
  CHECK(std::get<Narrows>(found[0].details).depth.value() == Approx(4).margin(0.26));
  CHECK(distance(found[0].anchor, {0, 0}) < Metres(5));
}

TEST_CASE("a channel of one cell between two basins") {
  const Lake lake = lake_of(filled(frame_about(Metres(400), Metres(5)), [](XY at) {
    const bool basin = std::hypot(std::abs(at.x) - 200, at.y) < 120;
    const bool channel = std::abs(at.x) < 200 && std::abs(at.y - 2.5) < 2.4;
    return basin || channel ? 3.0 : static_cast<double>(kLand.value());
  }));
  const auto found = narrows_of(lake);
  REQUIRE(found.size() == 1);
  CHECK(std::get<Narrows>(found[0].details).width.value() == Approx(5).margin(0.1));
  CHECK(found[0].anchor.y == Approx(2.5).margin(0.1));
  CHECK(std::abs(found[0].anchor.x) < 100);
}

TEST_CASE("no narrows without two basins") {
  CHECK(narrows_of(lake_of(bowl(Metres(300), Metres(10), Metres(5), Metres(30)))).empty());
  // a straight canal
  CHECK(narrows_of(lake_of(filled(frame_about(Metres(400), Metres(5)), [](XY at) {
          return std::abs(at.x) < 350 && std::abs(at.y) < 40 ? 4.0 : static_cast<double>(kLand.value());
        }))).empty());
  // a ring of water round an island
  CHECK(narrows_of(lake_of(filled(frame_about(Metres(400), Metres(5)), [](XY at) {
          const double r = std::hypot(at.x, at.y);
          return r < 300 && r > 200 ? 4.0 : static_cast<double>(kLand.value());
        }))).empty());
  // a waist of 240 m between basins of 2 (120 + 48.4) = 337 m: 1.4 times as wide, not 1.6
  CHECK(narrows_of(lake_of(hourglass(Metres(5), 120))).empty());
}

TEST_CASE("the edge of the map is no shore of a narrows") {
  // the southern half of the hourglass is off the map
  Grid<Metres32> values = hourglass(Metres(5));
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values.frame().centre(values.cell_of(i)).y < 0) values[i] = kUnknown;
  }
  CHECK(narrows_of(lake_of(values)).empty());
}

TEST_CASE("a waist of the deep water alone, at the depth of its contour") {
  // a shelf of 3 m, and in it deep water of half-width 40 + x^2 / 500 at 4 m: its floor falls by 1 in 10 from a wall
  const auto depth = [](XY at) {
    if (std::abs(at.x) > 280 || std::abs(at.y) > 280) return static_cast<double>(kLand.value());
    const double inside = 40 + at.x * at.x / 500 - std::abs(at.y);
    return std::abs(at.x) < 220 && inside > -10 ? 4 + inside / 10 : 3.0;
  };
  const double turn = GENERATE(0.0, 1.0);
  const Lake lake = lake_of(filled(frame_about(Metres(300), Metres(2)), [&](XY at) {
    return turn > 0 ? depth({at.y, -at.x}) : depth(at);
  }));
  const auto found = narrows_of(lake);
  REQUIRE(found.size() == 1);
  const auto& waist = std::get<Narrows>(found[0].details);
  CHECK(waist.level.value() == 4);
  CHECK(waist.width.value() == Approx(80).margin(2));
  CHECK(waist.depth.value() == Approx(8).margin(0.15));
  CHECK(distance(found[0].anchor, {0, 0}) < Metres(20));
  // a trough no deeper than a metre below the contour is no place between two basins
  const Lake shallow = lake_of(filled(frame_about(Metres(300), Metres(2)), [&](XY at) {
    const double d = depth(at);
    return d > 4 ? 4 + (d - 4) * 0.2 : d;
  }));
  CHECK(narrows_of(shallow).empty());
}
