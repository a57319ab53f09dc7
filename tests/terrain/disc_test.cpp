// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/disc.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <random>
#include <stdexcept>

#include "castplan/grid/sweep.hpp"
#include "support/lakes.hpp"

using namespace castplan;

namespace {

constexpr double kDeepest = 20;

Grid<Metres32> random_depths(unsigned seed, int rows, int cols, double unknown_share) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<float> share(0.0F, 1.0F);
  Grid<Metres32> grid(Frame{{0, 0}, Metres(2), rows, cols});
  for (auto& cell : grid.cells()) {
    const float value = static_cast<float>(kDeepest) * share(random);
    cell = share(random) < unknown_share ? lakes::kUnknown : Metres32(value);
  }
  return grid;
}

/// The definition, cell by cell.
double mean_around(const Grid<Metres32>& depth, Cell at, double radius_in_cells) {
  double sum = 0;
  int known = 0;
  const int reach = static_cast<int>(radius_in_cells) + 1;
  for (int down = -reach; down <= reach; ++down) {
    for (int across = -reach; across <= reach; ++across) {
      const Cell other{at.row + down, at.col + across};
      if (down * down + across * across > radius_in_cells * radius_in_cells) continue;
      if (!depth.holds(other) || std::isnan(depth[other].value())) continue;
      sum += static_cast<double>(depth[other].value());
      ++known;
    }
  }
  return sum / known;
}

bool same_bytes(const Grid<Metres32>& a, const Grid<Metres32>& b) {
  return a.size() == b.size() && std::memcmp(a.cells().data(), b.cells().data(), a.size() * sizeof(float)) == 0;
}

}  // namespace

TEST_CASE("a disc's mean is that of the cells within the radius, to half a step") {
  for (const double radius : {0.0, 1.0, 1.5, 2.0, 5.0, 12.25, 25.0, 60.0}) {
    for (const double unknown : {0.0, 0.2}) {
      const auto depth = random_depths(5, 90, 140, unknown);
      const auto mean = disc_mean(depth, Metres(2 * radius));
      const double allowed = disc_step(Metres(0), Metres(kDeepest), radius).value() / 2 + 3e-6;
      INFO("radius " << radius << ", unknown " << unknown);
      double worst = 0;
      for (std::size_t i = 0; i<depth.size(); i += radius> 10 ? 7 : 1) {
        REQUIRE(std::isnan(mean[i].value()) == std::isnan(depth[i].value()));
        if (std::isnan(depth[i].value())) continue;
        const double expected = mean_around(depth, depth.cell_of(i), radius);
        worst = std::max(worst, std::abs(static_cast<double>(mean[i].value()) - expected));
      }
      CHECK(worst <= allowed);
    }
  }
}

TEST_CASE("a disc's mean does not see tiles: larger than one each way") {
  const auto depth = random_depths(6, 300, 700, 0.01);
  const auto mean = disc_mean(depth, Metres(2 * 9));
  for (const Cell at : {Cell{127, 511}, Cell{128, 512}, Cell{255, 513}, Cell{256, 3}, Cell{299, 699}, Cell{0, 511}}) {
    if (std::isnan(depth[at].value())) continue;
    CHECK(static_cast<double>(mean[at].value()) == Approx(mean_around(depth, at, 9)).margin(1e-5));
  }
}

TEST_CASE("a disc's mean of a plane is the plane, away from its edges") {
  Grid<Metres32> plane(Frame{{0, 0}, Metres(1), 120, 120});
  for (std::size_t i = 0; i < plane.size(); ++i) {
    const Cell at = plane.cell_of(i);
    plane[i] = Metres32(0.25F * static_cast<float>(at.row) + 0.5F * static_cast<float>(at.col));
  }
  const auto mean = disc_mean(plane, Metres(20));
  for (int row = 20; row < 100; ++row) {
    for (int col = 20; col < 100; ++col) {
      CHECK(std::abs(mean[Cell{row, col}].value() - plane[Cell{row, col}].value()) < 1e-4F);
    }
  }
}

TEST_CASE("a disc's mean is the same to the last bit at any thread count, and turned") {
  const auto depth = random_depths(7, 260, 260, 0.1);
  set_threads(1);
  const auto alone = disc_mean(depth, Metres(30));
  set_threads(2);
  CHECK(same_bytes(disc_mean(depth, Metres(30)), alone));
  set_threads(0);
  const auto turned = [](const Grid<Metres32>& grid) {
    Grid<Metres32> out(grid.frame());
    for (std::size_t i = 0; i < grid.size(); ++i) {
      const Cell at = grid.cell_of(i);
      out[Cell{at.col, grid.rows() - 1 - at.row}] = grid[i];
    }
    return out;
  };
  CHECK(same_bytes(disc_mean(turned(depth), Metres(30)), turned(alone)));
}

TEST_CASE("a disc has to have a radius") {
  const auto depth = random_depths(8, 5, 5, 0);
  CHECK_THROWS_AS(disc_mean(depth, Metres(-1)), std::invalid_argument);
  const Grid<Metres32> nothing(Frame{{0, 0}, Metres(1), 4, 4}, lakes::kUnknown);
  CHECK(std::isnan(disc_mean(nothing, Metres(3))[0].value()));
}
