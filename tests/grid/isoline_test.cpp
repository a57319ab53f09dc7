// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/isoline.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <numbers>
#include <random>

#include "castplan/geo/planar.hpp"
#include "castplan/grid/sweep.hpp"
#include "support/lakes.hpp"

using namespace castplan;

namespace {

constexpr float kNaN = std::numeric_limits<float>::quiet_NaN();

Grid<Metres32> grid_of(int rows, int cols, const std::vector<float>& values) {
  Grid<Metres32> grid({.corner = {0, static_cast<double>(rows)}, .cell = Metres(1), .rows = rows, .cols = cols});
  for (std::size_t i = 0; i < values.size(); ++i) grid[i] = Metres32(values[i]);
  return grid;
}

/// Random field on a square frame about (0, 0), with some NaN and some cells equal to the level 0.
Grid<Metres32> random_field(unsigned seed, int side, double unknown_share) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  Grid<Metres32> grid(lakes::frame_about(Metres(side), Metres(2)));
  for (auto& cell : grid.cells()) {
    const double kind = share(random);
    const double value = std::floor(share(random) * 9.0) - 4.0;
    cell = Metres32(kind < unknown_share ? kNaN : static_cast<float>(value));
  }
  return grid;
}

/// A quarter turn anticlockwise about (0, 0): cells and places.
Grid<Metres32> turned(const Grid<Metres32>& grid) {
  Grid<Metres32> out(grid.frame());
  for (int row = 0; row < grid.rows(); ++row) {
    for (int col = 0; col < grid.cols(); ++col) out[Cell{grid.cols() - 1 - col, row}] = grid[Cell{row, col}];
  }
  return out;
}
Grid<Metres32> mirrored(const Grid<Metres32>& grid) {
  Grid<Metres32> out(grid.frame());
  for (int row = 0; row < grid.rows(); ++row) {
    for (int col = 0; col < grid.cols(); ++col) out[Cell{row, grid.cols() - 1 - col}] = grid[Cell{row, col}];
  }
  return out;
}

/// Every step of every line as its two ends, rounded to a millionth of a metre and sorted: what was drawn, whatever the
/// order and the starts.
using Drawn = std::vector<std::array<long, 4>>;
template <class Move>
Drawn drawn(const Lines& lines, bool backwards, const Move& move) {
  Drawn steps;
  const auto micro = [](double value) { return std::lround(value * 1e6); };
  for (const Line& line : lines) {
    for (std::size_t i = 1; i < line.size(); ++i) {
      const XY from = move(backwards ? line[i] : line[i - 1]);
      const XY to = move(backwards ? line[i - 1] : line[i]);
      steps.push_back({micro(from.x), micro(from.y), micro(to.x), micro(to.y)});
    }
  }
  std::sort(steps.begin(), steps.end());
  return steps;
}
XY same(XY at) { return at; }

bool is_closed(const Line& line) { return line.front() == line.back(); }

}  // namespace

TEST_CASE("isoline of a paraboloid is the circle of the closed form") {
  // r = R sqrt(1 - d / depth); largest error of linear interpolation on cell edges h^2 / (8 R) x 2 at the most.
  const double R = 400, depth = 20, level = 12, cell = 5;
  const auto lines = isolines(lakes::bowl(Metres(R), Metres(depth), Metres(cell), Metres(20)), level);
  REQUIRE(lines.size() == 1);
  REQUIRE(is_closed(lines[0]));
  const double r = R * std::sqrt(1 - level / depth);
  for (const XY at : lines[0]) CHECK(std::abs(std::hypot(at.x, at.y) - r) < 0.02);
  CHECK(length(lines[0]).value() == Approx(2 * std::numbers::pi * r).epsilon(1e-3));
  CHECK(signed_area(lines[0]).value() == Approx(std::numbers::pi * r * r).epsilon(1e-3));  // deep on the left
  for (const XY at : lines[0]) CHECK(at.y <= lines[0].front().y);
}

TEST_CASE("isoline is exact on a plane and runs from edge to edge") {
  const auto field = lakes::filled(lakes::frame_about(Metres(50), Metres(5)), [](XY at) { return 0.25 * at.x + 10; });
  const auto lines = isolines(field, 11);  // x = 4
  REQUIRE(lines.size() == 1);
  for (const XY at : lines[0]) CHECK(at.x == Approx(4.0).margin(1e-6));
  CHECK(lines[0].front().y == Approx(47.5));  // southwards: the larger values, in the east, on the left
  CHECK(lines[0].back().y == Approx(-47.5));
}

TEST_CASE("squares with an unknown corner are left out") {
  // One high cell, with an unknown one at a corner: three of four squares are drawn, one open line of three steps.
  const auto lines = isolines(grid_of(3, 3, {0, 0, 0, 0, 2, 0, 0, 0, kNaN}), 1);
  REQUIRE(lines.size() == 1);
  CHECK_FALSE(is_closed(lines[0]));
  REQUIRE(lines[0].size() == 4);
  CHECK(lines[0].front() == XY{2.0, 1.5});
  CHECK(lines[0].back() == XY{1.5, 1.0});
}

TEST_CASE("a square whose diagonals disagree is decided by its mean") {
  // High cells northwest and southeast: joined when the mean of the four is at the level or above.
  const std::vector<float> apart = {0, 0, 0, 0, 0, 3, 0, 0, 0, 0, 3, 0, 0, 0, 0, 0};
  CHECK(area_above(grid_of(4, 4, apart), 2).size() == 2);
  const std::vector<float> joined = {0, 0, 0, 0, 0, 6, 0, 0, 0, 0, 6, 0, 0, 0, 0, 0};
  CHECK(area_above(grid_of(4, 4, joined), 2).size() == 1);
}

TEST_CASE("cells equal to the level give no repeated points and no lines without area") {
  CHECK(isolines(grid_of(3, 3, {0, 0, 0, 0, 1, 0, 0, 0, 0}), 1).empty());
  CHECK(isolines(grid_of(3, 4, {0, 0, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0}), 1).empty());
  const auto square = isolines(grid_of(4, 4, {0, 0, 0, 0, 0, 1, 1, 0, 0, 1, 1, 0, 0, 0, 0, 0}), 1);
  REQUIRE(square.size() == 1);
  CHECK(square[0].size() == 5);
  CHECK(signed_area(square[0]).value() == Approx(1.0));
  for (unsigned seed = 1; seed <= 5; ++seed) {
    for (const Line& line : isolines(random_field(seed, 60, 0.05), 0)) {
      CHECK(std::adjacent_find(line.begin(), line.end()) == line.end());
    }
  }
}

TEST_CASE("every line is closed, or ends at the border or at an unknown cell") {
  for (unsigned seed = 1; seed <= 5; ++seed) {
    INFO("seed " << seed);
    const auto field = random_field(seed, 150, 0.02);
    const auto unknown_near = [&](XY at) {
      const Frame& frame = field.frame();
      const Cell middle = frame.cell_at(at);
      for (int row = middle.row - 1; row <= middle.row + 1; ++row) {
        for (int col = middle.col - 1; col <= middle.col + 1; ++col) {
          if (!frame.holds({row, col}) || std::isnan(field[Cell{row, col}].value())) return true;
        }
      }
      return false;
    };
    for (const Line& line : isolines(field, 0.5F)) {
      if (is_closed(line)) continue;
      CHECK(unknown_near(line.front()));
      CHECK(unknown_near(line.back()));
    }
  }
}

TEST_CASE("turning or mirroring the grid turns or mirrors the lines") {
  for (unsigned seed = 1; seed <= 5; ++seed) {
    INFO("seed " << seed);
    const auto field = random_field(seed, 80, 0.03);
    for (const float level : {0.0F, 0.5F}) {
      const auto lines = isolines(field, level);
      REQUIRE(!lines.empty());
      const auto turn = [](XY at) { return XY{-at.y, at.x}; };
      const auto mirror = [](XY at) { return XY{-at.x, at.y}; };
      CHECK(drawn(isolines(turned(field), level), false, same) == drawn(lines, false, turn));
      CHECK(drawn(isolines(mirrored(field), level), true, same) == drawn(lines, false, mirror));
    }
  }
}

TEST_CASE("lines are the same at 1 and 2 threads, and stand in order") {
  const auto field = random_field(7, 300, 0.02);
  set_threads(1);
  const auto alone = isolines(field, 0.5F);
  set_threads(2);
  const auto together = isolines(field, 0.5F);
  set_threads(0);
  CHECK(alone == together);
  CHECK(std::is_sorted(alone.begin(), alone.end(), [](const Line& a, const Line& b) {
    return a[0].y > b[0].y || (a[0].y == b[0].y && a[0].x < b[0].x);
  }));
}

TEST_CASE("area_above nests rings and closes along the unknown and the border") {
  // A ring of high cells with a high cell in its middle: a polygon with a hole, and a polygon in the hole.
  std::vector<float> values(49, 0);
  for (int row = 1; row < 6; ++row) {
    for (int col = 1; col < 6; ++col) {
      if (row == 1 || row == 5 || col == 1 || col == 5) values[static_cast<std::size_t>(row * 7 + col)] = 2;
    }
  }
  values[24] = 2;
  const auto polygons = area_above(grid_of(7, 7, values), 1);
  REQUIRE(polygons.size() == 2);
  REQUIRE(polygons[0].holes.size() == 1);
  CHECK(polygons[1].holes.empty());
  CHECK(signed_area(polygons[0].outer).value() > 0);
  CHECK(signed_area(polygons[0].holes[0]).value() < 0);
  CHECK(area(polygons[1]).value() == Approx(0.5));         // half-way to each of four neighbours: a diamond
  CHECK(area(polygons[0]).value() == Approx(24.5 - 8.5));  // 5 x 5 and 3 x 3 squares with their corners cut

  const auto bordered = area_above(grid_of(2, 2, {2, 2, 2, kNaN}), 1);
  REQUIRE(bordered.size() == 1);
  CHECK(area(bordered).value() == Approx(2.5));  // three cells less four cut corners of 1/8
}

TEST_CASE("area_above covers the cells at or above the level and is valid") {
  for (unsigned seed = 1; seed <= 5; ++seed) {
    INFO("seed " << seed);
    const auto field = random_field(seed, 80, 0.05);
    const auto polygons = area_above(field, 0);
    CHECK(invalidity(polygons).empty());  // by GEOS
    int wrong = 0;
    for (std::size_t i = 0; i < field.size(); ++i) {
      const bool above = field[i].value() >= 0;
      if (contains(polygons, field.frame().centre(field.cell_of(i))) != above) ++wrong;
    }
    CHECK(wrong == 0);
  }
}
