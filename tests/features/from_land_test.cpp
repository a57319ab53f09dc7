// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/from_land.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace castplan;

namespace {

Lake speckled_lake(unsigned seed, int rows, int cols) {
  std::mt19937 random(seed);
  Lake lake;
  const Frame frame{{0, 0}, Metres(2), rows, cols};
  lake.depth = Grid<Metres32>(frame, Metres32(1.0F));
  lake.cover = Grid<Cover>(frame, Cover::water);
  for (Cover& cell : lake.cover.cells()) {
    if (random() % 300 == 0) cell = Cover::land;
  }
  return lake;
}

/// The definition: over all cells.
double nearest_land(const Lake& lake, Cell at) {
  double nearest = HUGE_VAL;
  for (std::size_t i = 0; i < lake.cover.size(); ++i) {
    if (lake.cover[i] != Cover::land) continue;
    const Cell land = lake.cover.cell_of(i);
    nearest = std::min(nearest, 2 * std::hypot(land.row - at.row, land.col - at.col));
  }
  return nearest;
}

}  // namespace

TEST_CASE("the distance from land in a window is exact up to the limit") {
  const Lake lake = speckled_lake(3, 90, 80);
  const FromLand from_land(lake, Metres(30));
  const Cell corner{-1, 40};
  const Grid<Metres32> found = from_land.around(corner, 60, 41);
  for (std::size_t i = 0; i < found.size(); ++i) {
    const Cell in_window = found.cell_of(i);
    const Cell at{in_window.row + corner.row, in_window.col + corner.col};
    if (!lake.cover.holds(at)) {
      CHECK(std::isinf(found[i].value()));
      continue;
    }
    const double expected = nearest_land(lake, at);
    if (expected <= 30) {
      CHECK(static_cast<double>(found[i].value()) == Approx(expected));
    } else {
      CHECK(found[i].value() > 30.0F);
    }
  }
}

TEST_CASE("cells far from land are those of the groups taken, over the borders of tiles") {
  const Lake lake = speckled_lake(4, 150, 140);
  const auto stripes = [](Cell at) { return at.col % 70 < 60; };  // two groups
  const Groups groups = groups_of(lake.cover.frame(), [&](int row, int first, std::span<std::uint8_t> out) {
    for (std::uint8_t& mark : out) mark = stripes({row, first++}) ? 1 : 0;
  });
  REQUIRE(groups.count() == 2);
  const FromLand from_land(lake, Metres(24));
  const Groups far = cells_beyond(groups, {true, false}, from_land, Metres(20));
  int wrong = 0;
  int found = 0;
  for (std::size_t i = 0; i < lake.cover.size(); ++i) {
    const Cell at = lake.cover.cell_of(i);
    const bool expected = stripes(at) && at.col < 70 && nearest_land(lake, at) > 20;
    wrong += expected != (far[i] >= 0);
    found += expected;
  }
  CHECK(wrong == 0);
  CHECK(found > 100);
}
