// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/lake.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstring>
#include <numbers>

#include "castplan/geo/error.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/sweep.hpp"
#include "support/lakes.hpp"

using namespace castplan;
using lakes::kLand;
using lakes::kUnknown;
using lakes::lake_of;

namespace {

constexpr double kPi = std::numbers::pi;

bool same_bits(const Grid<Metres32>& a, const Grid<Metres32>& b) {
  return a.size() == b.size() && std::memcmp(a.cells().data(), b.cells().data(), a.size() * sizeof(Metres32)) == 0;
}

bool same_shapes(const Polygons& a, const Polygons& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Polygon& one, const Polygon& other) {
    return one.outer == other.outer && one.holes == other.holes;
  });
}

}  // namespace

TEST_CASE("figures of a paraboloid bowl are those of the closed form") {
  // A = pi R^2, V = pi R^2 z / 2, mean = z / 2, largest = z.
  const double R = 400, depth = 20;
  const Lake lake = lake_of(lakes::bowl(Metres(R), Metres(depth), Metres(5), Metres(30)));
  CHECK(lake.area.value() == Approx(kPi * R * R).epsilon(2e-3));
  CHECK(lake.volume.value() == Approx(kPi * R * R * depth / 2).epsilon(1e-3));
  CHECK(lake.mean_depth.value() == Approx(depth / 2).epsilon(2e-3));
  CHECK(lake.max_depth.value() == Approx(depth).epsilon(1e-3));
  REQUIRE(lake.bodies.size() == 1);
  CHECK(std::hypot(lake.bodies[0].deepest.x, lake.bodies[0].deepest.y) < 5);
  CHECK(lake.cut_share == 0);
  CHECK_FALSE(lake.depth_error_known);
}

TEST_CASE("depth is 0 one cell into land and unknown beyond") {
  const Lake lake = lake_of(lakes::disc(Metres(50), Metres(3), Metres(5), Metres(30)));
  for (std::size_t i = 0; i < lake.depth.size(); ++i) {
    const Cell at = lake.depth.cell_of(i);
    bool beside = false;
    for (int row = at.row - 1; row <= at.row + 1; ++row) {
      for (int col = at.col - 1; col <= at.col + 1; ++col) {
        beside = beside || (lake.cover.holds({row, col}) && lake.cover[Cell{row, col}] == Cover::water);
      }
    }
    const float depth = lake.depth[i].value();
    if (lake.cover[i] == Cover::water) {
      CHECK(depth == 3.0F);
    } else if (beside) {
      CHECK(depth == 0.0F);
    } else {
      CHECK(std::isnan(depth));
    }
  }
}

TEST_CASE("two water bodies are kept apart, largest first, and both are counted") {
  auto values = lakes::filled(lakes::frame_about(Metres(100), Metres(5)), [](XY at) {
    if (std::hypot(at.x + 55, at.y) < 30) return 4.0;
    if (std::hypot(at.x - 40, at.y) < 50) return 2.0;
    return static_cast<double>(kLand.value());
  });
  const Lake lake = lake_of(values);
  REQUIRE(lake.bodies.size() == 2);
  CHECK(lake.bodies[0].max_depth == Metres(2));
  CHECK(lake.bodies[1].max_depth == Metres(4));
  CHECK(lake.max_depth == Metres(4));
  CHECK(lake.area.value() == Approx((lake.bodies[0].area + lake.bodies[1].area).value()));
  CHECK(lake.volume.value() == Approx(lake.bodies[0].area.value() * 2 + lake.bodies[1].area.value() * 4));
  CHECK(lake.body_of[values.frame().cell_at({-55, 0})] == 1);
  CHECK(lake.body_of[values.frame().cell_at({40, 0})] == 0);
  CHECK(lake.body_of[Cell{0, 0}] == -1);
  CHECK(lake.outline.size() == 2);
}

TEST_CASE("of equal bodies the one with the first cell comes first; corners join") {
  Grid<Metres32> values({.corner = {0, 0}, .cell = Metres(10), .rows = 4, .cols = 6}, kLand);
  values[Cell{0, 4}] = values[Cell{1, 5}] = Metres32(1);  // joined over a corner
  values[Cell{1, 0}] = values[Cell{2, 0}] = Metres32(2);
  values[Cell{3, 3}] = Metres32(9);
  const Lake lake = lake_of(values);
  REQUIRE(lake.bodies.size() == 3);
  CHECK(lake.bodies[0].max_depth == Metres(1));
  CHECK(lake.bodies[1].max_depth == Metres(2));
  CHECK(lake.bodies[2].max_depth == Metres(9));
  CHECK(lake.bodies[0].area == SquareMetres(200));
  CHECK(lake.bodies[0].deepest == XY{45, -5});  // the first of equals
}

TEST_CASE("the unknown and the edge of the frame are no shore") {
  // The western half of a bowl; beyond the middle the survey ends.
  const double R = 400;
  auto values = lakes::bowl(Metres(R), Metres(20), Metres(5), Metres(30));
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values.frame().centre(values.cell_of(i)).x > 0) values[i] = kUnknown;
  }
  const Lake lake = lake_of(values);
  CHECK(lake.shoreline.value() == Approx(kPi * R).epsilon(0.01));
  // Cell sides: 4 R on the round part of a half disc (2 R across, 2 R down), 2 R on the cut.
  CHECK(lake.cut_share == Approx(1.0 / 3.0).epsilon(0.02));
  CHECK(area(lake.outline).value() == Approx(kPi * R * R / 2).epsilon(5e-3));

  const Lake filled = lake_of(Grid<Metres32>({.corner = {0, 0}, .cell = Metres(5), .rows = 8, .cols = 9}, Metres32(2)));
  CHECK(filled.cut_share == 1.0);
  CHECK(filled.shoreline == Metres(0));
}

TEST_CASE("a given outline is used as it is") {
  const Polygons square = {{.outer = {{-100, -100}, {100, -100}, {100, 100}, {-100, 100}, {-100, -100}}, .holes = {}}};
  const Lake lake = make_lake(Projection::transverse_mercator({Longitude{-40.0}, Latitude{45.5}}),
                              lakes::disc(Metres(90), Metres(3), Metres(5), Metres(30)), square);
  CHECK(lake.shoreline == Metres(800));
  CHECK(lake.shoreline_development == Approx(2.0 / std::sqrt(kPi)));  // a square: 4 a / (2 sqrt(pi) a)
  CHECK(same_shapes(lake.outline, square));
}

TEST_CASE("no water is refused with what was found") {
  Grid<Metres32> values({.corner = {0, 0}, .cell = Metres(1), .rows = 2, .cols = 2}, Metres32(-3));
  values[Cell{0, 0}] = kUnknown;
  CHECK_THROWS_AS(lake_of(values), InputError);
  CHECK_THROWS_WITH(lake_of(values), Catch::StartsWith("no water: 25.0 % of 4 cells are unknown and 75.0 % land; "
                                                       "values from -3.00 to -3.00 m"));
  CHECK_THROWS_WITH(lake_of(Grid<Metres32>(values.frame(), kUnknown)), Catch::Contains("no cell has a finite value"));
}

TEST_CASE("depth between cell centres is exact on planes, and unknown where any cell with weight is") {
  const auto plane = [](XY at) { return 10 + 0.02 * at.x - 0.03 * at.y; };
  auto values = lakes::filled(lakes::frame_about(Metres(50), Metres(5)), plane);
  values[values.frame().cell_at({22.5, 22.5})] = kUnknown;
  const Lake lake = lake_of(values);
  for (const XY at : {XY{0, 0}, XY{3.1, -7.7}, XY{-47.5, 47.5}, XY{47.5, -47.5}, XY{12.5, 1.0}}) {
    CHECK(depth_at(lake, at) == Approx(plane(at)).epsilon(1e-6));
  }
  CHECK(std::isnan(depth_at(lake, {20, 20})));
  CHECK(depth_at(lake, {17.5, 22.5}) == Approx(plane({17.5, 22.5})));  // the unknown cell has no weight here
  for (const XY at : {XY{48, 0}, XY{0, -48}, XY{-60, 0}, XY{0, 1e9}}) CHECK(std::isnan(depth_at(lake, at)));
}

TEST_CASE("land counts as 0 between centres, and only beside water") {
  Grid<Metres32> values({.corner = {0, 10}, .cell = Metres(10), .rows = 1, .cols = 4}, Metres32(-5));
  values[Cell{0, 0}] = Metres32(4);
  const Lake lake = lake_of(values);
  CHECK(depth_at(lake, {10, 5}) == Approx(2));
  CHECK(std::isnan(depth_at(lake, {20, 5})));
  CHECK(cover_at(lake, {9, 5}) == Cover::water);
  CHECK(cover_at(lake, {11, 5}) == Cover::land);
  CHECK(cover_at(lake, {-1, 5}) == Cover::unknown);
}

TEST_CASE("a lake is the same at 1 and 2 threads") {
  const auto values = lakes::gaussian_pits(
      Metres(4), {{{-100, 0}, Metres(5), Metres(60)}, {{150, 40}, Metres(3), Metres(40)}}, Metres(500), Metres(3));
  set_threads(1);
  const Lake alone = lake_of(values);
  set_threads(2);
  const Lake together = lake_of(values);
  set_threads(0);
  CHECK(same_bits(alone.depth, together.depth));
  CHECK(same_shapes(alone.outline, together.outline));
  CHECK(alone.volume == together.volume);
  CHECK(alone.shoreline == together.shoreline);
  CHECK(alone.shoreline_development == together.shoreline_development);
}
