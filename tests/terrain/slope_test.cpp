// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/slope.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>

#include "castplan/grid/sweep.hpp"
#include "support/lakes.hpp"

using namespace castplan;

namespace {

struct Window {
  std::array<float, 9> elevation;  ///< row by row from the north
  double cell;
};

/// A window of elevations as a grid of depths.
Grid<Metres32> depths(const Window& window) {
  Grid<Metres32> grid({.corner = {0, 0}, .cell = Metres(window.cell), .rows = 3, .cols = 3});
  for (std::size_t i = 0; i < 9; ++i) grid[i] = Metres32(-window.elevation[i]);
  return grid;
}
double slope_in(const Window& window) { return slope(depths(window))[Cell{1, 1}].value(); }
double aspect_in(const Window& window) { return aspect(depths(window))[Cell{1, 1}].value(); }

constexpr double kDegrees = 180.0 / 3.14159265358979323846;

}  // namespace

TEST_CASE("Horn's slope and aspect equal the worked windows") {
  // Windows of elevations with printed results, as given in GIS documentation for the method of Horn (1981), Proc. IEEE
  // 69(1), 14-47. The first prints 75.25762 where its own derivatives (0.05, -3.8) give 75.25766.
  const Window first{{50, 45, 50, 30, 30, 30, 8, 10, 10}, 5};
  const Window second{{42, 45, 47, 40, 44, 49, 44, 48, 52}, 10};
  const Window third{{101, 92, 85, 101, 92, 85, 101, 91, 84}, 10};
  const Window fourth{{3, 3, 3, 2, 2, 2, 1, 1, 1}, 10};
  CHECK(std::abs(slope_in(first) - 75.25766) < 5e-4);
  CHECK(std::abs(slope_in(second) - 22.79182) < 5e-4);
  CHECK(std::abs(slope_in(third) - 39.12370) < 5e-4);
  CHECK(std::abs(slope_in(fourth) - 5.71059) < 5e-4);
  CHECK(std::abs(aspect_in(second) - 292.7510) < 1e-3);
  CHECK(std::abs(aspect_in(third) - 92.6425) < 1e-3);
  CHECK(std::abs(aspect_in(fourth) - 180.0) < 1e-3);
  // The derivatives themselves, by way of slope and aspect: tan(slope) = hypot, aspect = their direction.
  CHECK(std::tan(slope_in(first) / kDegrees) == Approx(std::hypot(0.05, 3.8)).epsilon(1e-5));
  CHECK(std::abs(aspect_in(first) - (180 + std::atan2(0.05, 3.8) * kDegrees)) < 1e-3);
}

TEST_CASE("slope and aspect are exact on planes, whatever their direction") {
  for (int bearing = 0; bearing < 360; bearing += 15) {
    for (const double grade : {1e-4, 0.01, 0.2, 1.0, 5.0}) {
      const double east = grade * std::sin(bearing / kDegrees);
      const double north = grade * std::cos(bearing / kDegrees);
      const auto plane =
          lakes::filled(lakes::frame_about(Metres(8), Metres(2)), [&](XY at) { return east * at.x + north * at.y; });
      const auto degrees = slope(plane);
      const auto facing = aspect(plane);
      INFO("bearing " << bearing << ", grade " << grade);
      for (int row = 1; row < plane.rows() - 1; ++row) {
        for (int col = 1; col < plane.cols() - 1; ++col) {
          CHECK(std::abs(degrees[Cell{row, col}].value() - std::atan(grade) * kDegrees) < 2e-5);
          const double off = static_cast<double>(facing[Cell{row, col}].value()) - bearing;
          CHECK(std::abs(std::remainder(off, 360.0)) < 1e-4);
          CHECK(facing[Cell{row, col}].value() >= 0);
          CHECK(facing[Cell{row, col}].value() < 360);
        }
      }
    }
  }
}

TEST_CASE("slope of a paraboloid bowl is that of the closed form") {
  // tan = 2 z r / R^2; differences over three cells are exact for a parabola.
  const double R = 300, depth = 40;
  const auto bowl = lakes::bowl(Metres(R), Metres(depth), Metres(5), Metres(10));
  const auto degrees = slope(bowl);
  for (const XY at : {XY{102.5, 2.5}, XY{-52.5, 177.5}, XY{2.5, -202.5}}) {
    const double r = std::hypot(at.x, at.y);
    CHECK(std::abs(degrees[bowl.frame().cell_at(at)].value() - std::atan(2 * depth * r / (R * R)) * kDegrees) < 1e-4);
  }
  const float facing = aspect(bowl)[bowl.frame().cell_at({102.5, 2.5})].value();
  CHECK(facing == Approx(270 - std::atan2(2.5, 102.5) * kDegrees).margin(1e-3));  // towards the middle
}

TEST_CASE("border cells, unknown neighbours and flats") {
  auto depth = lakes::filled(lakes::frame_about(Metres(5), Metres(1)), [](XY at) { return 20 + at.x; });
  depth[Cell{4, 4}] = lakes::kUnknown;
  const auto degrees = slope(depth);
  const auto facing = aspect(depth);
  for (int row = 0; row < 10; ++row) {
    for (int col = 0; col < 10; ++col) {
      const bool border = row == 0 || col == 0 || row == 9 || col == 9;
      const bool near = std::abs(row - 4) <= 1 && std::abs(col - 4) <= 1;
      CHECK(std::isnan(degrees[Cell{row, col}].value()) == (border || near));
      CHECK(std::isnan(facing[Cell{row, col}].value()) == (border || near));
    }
  }
  const auto flat = lakes::filled(lakes::frame_about(Metres(3), Metres(1)), [](XY) { return 7.0; });
  CHECK(slope(flat)[Cell{2, 2}].value() == 0.0F);
  CHECK(std::isnan(aspect(flat)[Cell{2, 2}].value()));
  const auto cliff =
      lakes::filled(lakes::frame_about(Metres(3e-6), Metres(1e-6)), [](XY at) { return at.x < 0 ? 0 : 1e6; });
  CHECK(slope(cliff)[Cell{2, 2}].value() < 90.0F);
  for (const int side : {1, 2}) {
    const Grid<Metres32> small({.corner = {0, 0}, .cell = Metres(1), .rows = side, .cols = side}, Metres32(1));
    const auto none = slope(small);
    for (const Degrees32 cell : none.cells()) CHECK(std::isnan(cell.value()));
  }
}

TEST_CASE("slope and aspect are the same at 1 and 2 threads") {
  const auto depth = lakes::gaussian_hump(Metres(9), {{10, 20}, Metres(5), Metres(40)}, Metres(300), Metres(2));
  set_threads(1);
  const auto alone = slope(depth);
  const auto facing_alone = aspect(depth);
  set_threads(2);
  const auto together = slope(depth);
  const auto facing_together = aspect(depth);
  set_threads(0);
  CHECK(std::memcmp(alone.cells().data(), together.cells().data(), alone.size() * 4) == 0);
  CHECK(std::memcmp(facing_alone.cells().data(), facing_together.cells().data(), alone.size() * 4) == 0);
}
