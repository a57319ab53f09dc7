// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/inside.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "castplan/geo/shape.hpp"

using namespace castplan;

namespace {

Ring star(XY centre, double radius, bool clockwise) {
  Ring ring;
  for (int i = 0; i < 60; ++i) {
    const double angle = (clockwise ? -1 : 1) * 2 * std::numbers::pi * i / 60;
    const double out = radius * (1 + 0.3 * std::cos(7 * angle));
    ring.push_back({centre.x + out * std::cos(angle), centre.y + out * std::sin(angle)});
  }
  ring.push_back(ring.front());
  return ring;
}

}  // namespace

// Each cell's centre against the ray test of one ring at a time; the lake reaches over the frame on two sides.
TEST_CASE("cells inside a lake with an island are those whose centres are") {
  const Frame frame{{0, 300}, Metres(5), 60, 50};
  const Polygons lake{{star({60, 250}, 110, false), {star({70, 230}, 30, true)}}};
  const Grid<std::uint8_t> inside = cells_inside(lake, frame);
  int wet = 0;
  for (int row = 0; row < frame.rows; ++row) {
    for (int col = 0; col < frame.cols; ++col) {
      const XY at = frame.centre({row, col});
      const bool expected = contains(lake[0].outer, at) && !contains(lake[0].holes[0], at);
      CHECK((inside[Cell{row, col}] == 1) == expected);
      wet += expected ? 1 : 0;
    }
  }
  CHECK(wet > 500);
  CHECK(wet < 2500);
}

TEST_CASE("runs come from north to south and west to east, and none for rings beside the frame") {
  const Frame frame{{0, 50}, Metres(5), 10, 10};
  // two squares side by side: rows 2 to 4, columns 1 to 2 and 6 to 8
  const auto square = [](double west, double east) {
    return Ring{{west, 40}, {west, 25}, {east, 25}, {east, 40}, {west, 40}};
  };
  std::vector<Cell> starts;
  runs_inside({square(30, 45), square(5, 15)}, frame, [&](int row, int first, int last) {
    starts.push_back({row, first});
    CHECK(last == (first == 1 ? 3 : 9));
  });
  CHECK(starts == std::vector<Cell>{{2, 1}, {2, 6}, {3, 1}, {3, 6}, {4, 1}, {4, 6}});
  runs_inside({square(1e15, 2e15), {{0, 1e15}, {5, 1e15}, {5, 2e15}, {0, 1e15}}}, frame,
              [](int, int, int) { FAIL("nothing lies there"); });
}
