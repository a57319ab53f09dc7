// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/position.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>

#include "support/lakes.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

/// Nine heights in reading order, as depths below the highest of all.
Grid<Metres32> window(const std::array<double, 9>& heights, Metres cell) {
  Grid<Metres32> depth(Frame{.corner = {0, 0}, .cell = cell, .rows = 3, .cols = 3});
  for (std::size_t i = 0; i < 9; ++i) depth[i] = Metres32(static_cast<float>(100 - heights[i]));
  return depth;
}

}  // namespace

// Windows and values: difference from the mean of eight neighbours (Weiss 2001; Wilson & Gallant 2000), worked by hand
// from the same windows that documentation of GIS programs prints for slope. Heights: a rise is positive.
TEST_CASE("the position index of the published windows") {
  const auto first = position_index(window({50, 45, 50, 30, 30, 30, 8, 10, 10}, Metres(5)), Metres(7.5));
  CHECK(first[Cell{1, 1}].value() == Approx(0.875).margin(1e-4));
  const auto second = position_index(window({42, 45, 47, 40, 44, 49, 44, 48, 52}, Metres(10)), Metres(15));
  CHECK(second[Cell{1, 1}].value() == Approx(-1.875).margin(1e-4));
  // a corner has three neighbours: 42 - (45 + 40 + 44) / 3
  CHECK(second[Cell{0, 0}].value() == Approx(-1).margin(1e-4));
}

TEST_CASE("the position index of a plane is nothing, of a hump positive, and the unknown stays out of the mean") {
  const Frame frame = frame_about(Metres(60), Metres(2));
  const auto plane = position_index(filled(frame, [](XY at) { return 20 + 0.1 * at.x; }), Metres(9));
  CHECK(plane[Cell{30, 30}].value() == Approx(0).margin(1e-3));
  Grid<Metres32> hump = filled(frame, [](XY at) { return std::hypot(at.x, at.y) < 4 ? 3.0 : 8.0; });
  CHECK(position_index(hump, Metres(20))[Cell{30, 30}].value() > 4);
  // with half of the disc unknown the other half still lies 5 m lower
  for (std::size_t i = 0; i < hump.size(); ++i) {
    const XY at = frame.centre(hump.cell_of(i));
    if (at.x > 4) hump[i] = kUnknown;
  }
  const auto half = position_index(hump, Metres(20));
  CHECK(half[Cell{30, 30}].value() > 4);
  CHECK(std::isnan(half[Cell{30, 40}].value()));
}

TEST_CASE("a standardised index is cut as published") {
  CHECK(standardised(1.2, 0.1, 0.5) == 220);  // Lundblad et al. (2006)
  CHECK(standardised(-0.001, 0, 1) == 0);     // towards zero
}

TEST_CASE("forms by how many directions lie lower and higher") {
  // Jasiewicz & Stepinski (2013): 1 flat, 2 peak, 3 ridge, 4 shoulder, 5 spur, 6 slope, 7 hollow, 8 footslope, 9
  // valley, 10 pit; rows of the published table
  struct Row {
    int lower, higher, code;
  };
  for (const Row& row : {Row{0, 0, 1}, Row{8, 0, 2}, Row{0, 8, 10}, Row{5, 0, 3}, Row{0, 5, 9}, Row{3, 0, 4},
                         Row{0, 3, 8}, Row{4, 2, 5}, Row{2, 4, 7}, Row{4, 4, 6}, Row{3, 3, 6}}) {
    INFO(row.lower << " lower, " << row.higher << " higher");
    CHECK(static_cast<int>(form_of(row.lower, row.higher)) == row.code);
  }
  for (int lower = 0; lower <= 8; ++lower) {
    for (int higher = 0; lower + higher <= 8; ++higher) {
      const int code = static_cast<int>(form_of(lower, higher));
      CHECK(code >= 1);
      CHECK(code <= 10);
    }
  }
  CHECK_THROWS_AS(form_of(5, 4), std::invalid_argument);
  CHECK_THROWS_AS(form_of(-1, 4), std::invalid_argument);
}

TEST_CASE("forms of shapes that are known") {
  const Frame frame = frame_about(Metres(100), Metres(2));
  const Cell middle = frame.cell_at({1, -1});
  const auto form = [&](auto depth) { return form_at(filled(frame, depth), middle, Metres(40), Degrees(1)); };
  CHECK(form([](XY) { return 5.0; }) == Form::flat);
  CHECK(form([](XY at) { return 5 + 0.1 * distance(at, {1, -1}).value(); }) == Form::peak);
  CHECK(form([](XY at) { return 20 - 0.1 * distance(at, {1, -1}).value(); }) == Form::pit);
  CHECK(form([](XY at) { return 5 + 0.2 * std::abs(at.x - 1); }) == Form::ridge);
  CHECK(form([](XY at) { return 30 - 0.2 * std::abs(at.x - 1); }) == Form::valley);
  CHECK(form([](XY at) { return 30 + 0.2 * at.x; }) == Form::slope);
  // the lip of a drop-off and its foot: level on one side, 20 % on the other
  CHECK(form([](XY at) { return 5 + 0.2 * std::max(0.0, at.x - 1); }) == Form::shoulder);
  CHECK(form([](XY at) { return 30 - 0.2 * std::max(0.0, at.x - 1); }) == Form::footslope);
}
