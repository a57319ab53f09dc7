// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/smooth.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <numbers>
#include <random>

#include "castplan/grid/sweep.hpp"
#include "support/lakes.hpp"

using namespace castplan;

namespace {

/// Random depths of 0 to 20 m, a share of them unknown, on a square frame of 2 m cells.
Grid<Metres32> random_depths(unsigned seed, int side, double unknown_share) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<float> share(0.0F, 1.0F);
  Grid<Metres32> grid(lakes::frame_about(Metres(side), Metres(2)));
  for (auto& cell : grid.cells()) {
    const float value = 20.0F * share(random);
    cell = share(random) < unknown_share ? lakes::kUnknown : Metres32(value);
  }
  return grid;
}

/// The definition, cell by cell in double precision: product weights inside a square window of three sigma.
double mean_around(const Grid<Metres32>& depth, Cell at, Metres sigma) {
  const double steps = sigma / depth.frame().cell;
  const int reach = static_cast<int>(3 * steps + 1e-9);
  double values = 0;
  double weights = 0;
  for (int down = -reach; down <= reach; ++down) {
    for (int across = -reach; across <= reach; ++across) {
      const Cell other{at.row + down, at.col + across};
      if (!depth.holds(other) || std::isnan(depth[other].value())) continue;
      const double weight = std::exp(-(down * down + across * across) / (2 * steps * steps));
      values += weight * static_cast<double>(depth[other].value());
      weights += weight;
    }
  }
  return values / weights;
}

double largest_difference(const Grid<Metres32>& a, const Grid<Metres32>& b) {
  double largest = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    CHECK(std::isnan(a[i].value()) == std::isnan(b[i].value()));
    if (std::isnan(a[i].value())) continue;
    largest = std::max(largest, std::abs(static_cast<double>(a[i].value()) - static_cast<double>(b[i].value())));
  }
  return largest;
}

template <class Move>
Grid<Metres32> moved(const Grid<Metres32>& grid, const Move& move) {
  Grid<Metres32> out(grid.frame());
  for (std::size_t i = 0; i < grid.size(); ++i) out[move(grid.cell_of(i))] = grid[i];
  return out;
}

}  // namespace

TEST_CASE("smoothing equals the definition of the weighted mean") {
  for (const double sigma : {1.0, 3.0, 4.0, 9.0}) {
    const auto depth = random_depths(11, 70, 0.2);
    const auto smooth = smoothed(depth, Metres(sigma));
    double worst = 0;
    for (std::size_t i = 0; i < depth.size(); ++i) {
      const Cell at = depth.cell_of(i);
      REQUIRE(std::isnan(smooth[i].value()) == std::isnan(depth[i].value()));
      if (std::isnan(depth[i].value())) continue;
      worst = std::max(worst, std::abs(static_cast<double>(smooth[i].value()) - mean_around(depth, at, Metres(sigma))));
    }
    INFO("seed 11, sigma " << sigma);
    CHECK(worst < 2e-5);
  }
}

TEST_CASE("a plane stays as it is away from the unknown") {
  const auto plane =
      lakes::filled(lakes::frame_about(Metres(400), Metres(1)), [](XY at) { return 30 + 0.05 * at.x - 0.02 * at.y; });
  const auto smooth = smoothed(plane, Metres(3));
  double worst = 0;
  for (std::size_t i = 0; i < plane.size(); ++i) {
    const Cell at = plane.cell_of(i);
    if (std::min(at.row, at.col) < 9 || std::max(at.row, at.col) >= plane.rows() - 9) continue;
    worst = std::max(worst, std::abs(static_cast<double>(smooth[i].value()) - static_cast<double>(plane[i].value())));
  }
  CHECK(worst < 3e-5);  // float rounding at 60 m
}

TEST_CASE("smoothing a Gaussian hump widens it as the closed form says") {
  // Variances add: sigma'^2 = s^2 + t^2, height falls by s^2 / (s^2 + t^2); the cut at 3 t loses under 1 %.
  const double s = 40;
  const double t = 20;
  const auto hump = lakes::gaussian_hump(Metres(12), {{0, 0}, Metres(6), Metres(s)}, Metres(400), Metres(2.5));
  const auto smooth = smoothed(hump, Metres(t));
  const float top = 12 - smooth[hump.frame().cell_at({1, 1})].value();
  CHECK(top == Approx(6 * s * s / (s * s + t * t)).epsilon(0.01));
}

TEST_CASE("turning or mirroring the grid turns or mirrors the result") {
  const auto depth = random_depths(5, 80, 0.1);
  const int last = depth.rows() - 1;
  const auto turn = [&](Cell at) { return Cell{last - at.col, at.row}; };
  const auto mirror = [&](Cell at) { return Cell{at.row, last - at.col}; };
  const auto smooth = smoothed(depth, Metres(5));
  CHECK(largest_difference(smoothed(moved(depth, turn), Metres(5)), moved(smooth, turn)) < 2e-5);
  CHECK(largest_difference(smoothed(moved(depth, mirror), Metres(5)), moved(smooth, mirror)) < 2e-5);
}

TEST_CASE("a window under one cell changes nothing, and threads do not matter") {
  const auto depth = random_depths(6, 300, 0.05);
  for (const double sigma : {0.0, 0.5}) {
    const auto smooth = smoothed(depth, Metres(sigma));
    CHECK(std::memcmp(depth.cells().data(), smooth.cells().data(), depth.size() * 4) == 0);
  }
  set_threads(1);
  const auto alone = smoothed(depth, Metres(6));
  set_threads(2);
  const auto together = smoothed(depth, Metres(6));
  set_threads(0);
  CHECK(std::memcmp(alone.cells().data(), together.cells().data(), alone.size() * 4) == 0);
}
