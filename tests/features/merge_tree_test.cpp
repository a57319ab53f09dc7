// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/merge_tree.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <set>

using namespace castplan;

namespace {

// The definition itself: the highest level at which a place is still joined to something higher, by trying every
// level of the field. Slow, and shares nothing with the code under test.
float pass_by_flood(const Grid<Metres32>& field, std::size_t summit) {
  const float height = field[summit].value();
  std::vector<float> levels;
  for (const Metres32 cell : field.cells()) {
    if (cell.value() < height) levels.push_back(cell.value());
  }
  std::sort(levels.begin(), levels.end(), std::greater<>());
  for (const float level : levels) {
    std::vector<std::size_t> stack{summit};
    std::vector<bool> seen(field.size());
    seen[summit] = true;
    while (!stack.empty()) {
      const Cell at = field.cell_of(stack.back());
      stack.pop_back();
      for (int r = at.row - 1; r <= at.row + 1; ++r) {
        for (int c = at.col - 1; c <= at.col + 1; ++c) {
          if (!field.holds({r, c}) || seen[field.index({r, c})]) continue;
          const float value = field[Cell{r, c}].value();
          if (!(value >= level)) continue;
          if (value > height) return level;
          seen[field.index({r, c})] = true;
          stack.push_back(field.index({r, c}));
        }
      }
    }
  }
  return std::numeric_limits<float>::quiet_NaN();
}

Grid<Metres32> random_field(unsigned seed, int levels) {
  std::mt19937 random(seed);
  Grid<Metres32> field(Frame{{0, 0}, Metres(1), 9, 11});
  for (Metres32& cell : field.cells()) {
    cell = Metres32(static_cast<float>(random() % static_cast<unsigned>(levels)));
    if (random() % 10 == 0) cell = Metres32(std::numeric_limits<float>::quiet_NaN());
  }
  return field;
}

}  // namespace

TEST_CASE("passes are those of a flood by hand, on random fields") {
  for (unsigned seed = 1; seed <= 60; ++seed) {
    // few levels make plateaus; many make every height its own
    const Grid<Metres32> field = random_field(seed, seed % 2 == 0 ? 6 : 100000);
    INFO("seed " << seed);
    int summits = 0;
    for (const Summit& summit : merge_tree(field)) {
      const float pass = pass_by_flood(field, summit.cell);
      // among equals the elder rule lets one stand for all: a summit joined at its own height is no rise of its own
      if (summit.parent >= 0 && summit.pass == summit.height) continue;
      ++summits;
      if (summit.parent < 0) {
        CHECK(std::isnan(pass));
      } else if (!std::isnan(pass)) {
        CHECK(summit.pass >= pass);
        // a twin of equal height may be met before anything higher
        if (summit.pass > pass) {
          const auto twin = cells_above(field, summit.cell, std::nextafter(summit.pass, -1.0F));
          const auto equals = std::count_if(twin.begin(), twin.end(),
                                            [&](std::size_t cell) { return field[cell].value() == summit.height; });
          CHECK(equals > 1);
        }
      }
    }
    CHECK(summits > 0);
  }
}

TEST_CASE("the cells above a level are one joined area") {
  const Grid<Metres32> field = random_field(7, 100000);
  const std::vector<Summit> summits = merge_tree(field);
  const auto lower = std::find_if(summits.begin(), summits.end(),
                                  [](const Summit& each) { return each.parent >= 0 && each.prominence() > 0; });
  REQUIRE(lower != summits.end());
  const auto alone = cells_above(field, lower->cell, lower->pass);
  CHECK(std::set<std::size_t>(alone.begin(), alone.end()).size() == alone.size());  // each cell once
  // above its pass a summit is the highest of its area; at the pass something higher has joined
  CHECK(
      std::none_of(alone.begin(), alone.end(), [&](std::size_t cell) { return field[cell].value() > lower->height; }));
  const auto joined = cells_above(field, lower->cell, std::nextafter(lower->pass, -1.0F));
  CHECK(
      std::any_of(joined.begin(), joined.end(), [&](std::size_t cell) { return field[cell].value() > lower->height; }));
  CHECK(cells_above(field, lower->cell, lower->height).empty());
}
