// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/merge_tree.hpp"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <map>
#include <random>
#include <set>

#include "castplan/grid/sweep.hpp"

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

// Prominence by drowning: cells rise out of the water one by one, highest first, and where two islands meet the one
// with the lower summit ends. Nothing is shared with the code under test.
std::map<std::size_t, float> prominences_by_drowning(const Grid<Metres32>& field) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < field.size(); ++i) {
    if (!std::isnan(field[i].value())) order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return field[a] > field[b]; });
  std::map<std::size_t, std::size_t> island;  // cell to the summit of its island, all cells relabelled at each meeting
  std::map<std::size_t, float> found;
  for (const std::size_t cell : order) {
    const Cell at = field.cell_of(cell);
    std::set<std::size_t> around;
    for (int r = at.row - 1; r <= at.row + 1; ++r) {
      for (int c = at.col - 1; c <= at.col + 1; ++c) {
        if (field.holds({r, c}) && island.count(field.index({r, c})) > 0) around.insert(island[field.index({r, c})]);
      }
    }
    if (around.empty()) {
      island[cell] = cell;
      continue;
    }
    const std::size_t eldest = *std::min_element(around.begin(), around.end(), [&](std::size_t a, std::size_t b) {
      return field[a] > field[b] || (field[a] == field[b] && a < b);
    });
    for (const std::size_t summit : around) {
      if (summit != eldest) found[summit] = (field[summit] - field[cell]).value();
    }
    island[cell] = eldest;
    for (auto& [other, summit] : island) {
      if (around.count(summit) > 0) summit = eldest;
    }
  }
  return found;
}

// Joined cells above a level, by passing over the whole field until nothing changes.
std::set<std::size_t> joined_by_passes(const Grid<Metres32>& field, std::size_t from, float level) {
  std::set<std::size_t> found;
  if (!(field[from].value() > level)) return found;
  found.insert(from);
  for (bool grown = true; grown;) {
    grown = false;
    for (std::size_t i = 0; i < field.size(); ++i) {
      if (found.count(i) > 0 || !(field[i].value() > level)) continue;
      const Cell at = field.cell_of(i);
      const bool joins = std::any_of(found.begin(), found.end(), [&](std::size_t other) {
        const Cell there = field.cell_of(other);
        return std::abs(there.row - at.row) <= 1 && std::abs(there.col - at.col) <= 1;
      });
      if (joins) grown = found.insert(i).second;
    }
  }
  return found;
}

Grid<Metres32> random_field(unsigned seed, int levels, int rows = 9, int cols = 11) {
  std::mt19937 random(seed);
  Grid<Metres32> field(Frame{{0, 0}, Metres(1), rows, cols});
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

TEST_CASE("every summit's prominence is that of drowning the field, plateaus and gaps included") {
  for (unsigned seed = 100; seed < 300; ++seed) {
    const Grid<Metres32> field = random_field(seed, std::array{3, 8, 100000}[seed % 3]);
    INFO("seed " << seed);
    std::map<std::size_t, float> found;
    for (const Summit& summit : merge_tree(field)) {
      if (summit.parent >= 0) found[summit.cell] = summit.prominence();
    }
    CHECK(found == prominences_by_drowning(field));
  }
}

// Taller than a band of rows, so that ways up and passes run over the borders of bands.
TEST_CASE("prominences are those of drowning where the field is taller than a band, at any thread count") {
  for (unsigned seed = 500; seed < 512; ++seed) {
    const int cols = seed % 3 == 0 ? 1 : 5;
    const Grid<Metres32> field = random_field(seed, std::array{4, 100000}[seed % 2], 64 * 3 + 7, cols);
    INFO("seed " << seed);
    for (const int count : {1, 2}) {
      set_threads(count);
      std::map<std::size_t, float> found;
      for (const Summit& summit : merge_tree(field)) {
        if (summit.parent >= 0) found[summit.cell] = summit.prominence();
      }
      CHECK(found == prominences_by_drowning(field));
    }
  }
  set_threads(0);
}

// One long way up that goes to and fro over a border of bands.
TEST_CASE("a way up that crosses a border of bands many times has one summit") {
  Grid<Metres32> field(Frame{{0, 0}, Metres(1), 130, 41}, Metres32(std::numeric_limits<float>::quiet_NaN()));
  float height = 1;
  for (int col = 0; col < 41; col += 2) {
    const bool down = col % 4 == 0;
    for (int i = 0; i < 20; ++i) field[Cell{down ? 54 + i : 73 - i, col}] = Metres32(height += 1);
    if (col < 40) field[Cell{down ? 73 : 54, col + 1}] = Metres32(height += 1);
  }
  const std::vector<Summit> summits = merge_tree(field);
  REQUIRE(summits.size() == 1);
  CHECK(summits.front().height == height);
  CHECK(summits.front().parent == -1);
}

TEST_CASE("the cells above a level are those found by passing over the field") {
  for (unsigned seed = 300; seed < 340; ++seed) {
    const Grid<Metres32> field = random_field(seed, seed % 2 == 0 ? 5 : 100000);
    INFO("seed " << seed);
    const std::size_t from = seed % field.size();
    const float level = field[(seed * 7) % field.size()].value();
    const auto found = cells_above(field, from, level);
    CHECK(std::set<std::size_t>(found.begin(), found.end()) == joined_by_passes(field, from, level));
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
