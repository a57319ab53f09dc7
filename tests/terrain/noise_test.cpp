// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/noise.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

#include "support/lakes.hpp"

using namespace castplan;

namespace {

Grid<Metres32> floor_with(double noise, unsigned seed) {
  std::mt19937_64 random(seed);
  std::normal_distribution<double> normal(0, noise);
  return lakes::filled(lakes::frame_about(Metres(500), Metres(5)), [&](XY at) {
    return 12 + 0.01 * at.x - 1e-5 * at.y * at.y + (noise > 0 ? normal(random) : 0.0);
  });
}

}  // namespace

// The noise that was put in, by its standard deviation; the bins are 7 % wide.
TEST_CASE("noise from cell to cell is measured, whatever the floor under it") {
  for (const double noise : {0.01, 0.05, 0.15, 0.5}) {
    for (const unsigned seed : {1U, 2U})
      CHECK(cell_noise(floor_with(noise, seed)).value() == Approx(noise).epsilon(0.08));
  }
  // a plane and a parabola have none
  CHECK(cell_noise(floor_with(0, 1)).value() < 1e-4);
}

TEST_CASE("noise: an edge, land and the unknown do not count") {
  Grid<Metres32> depth = floor_with(0.05, 3);
  for (int row = 0; row < depth.rows(); ++row) {
    depth[Cell{row, 40}] = Metres32(0);
    depth[Cell{row, 80}] = Metres32(std::numeric_limits<float>::quiet_NaN());
    for (int col = 120; col < depth.cols(); ++col) {
      depth[Cell{row, col}] = Metres32(depth[Cell{row, col}].value() + 6);
    }
  }
  CHECK(cell_noise(depth).value() == Approx(0.05).epsilon(0.08));
  for (Metres32& cell : depth.cells()) cell = Metres32(0);
  CHECK(cell_noise(depth).value() == 0);
}
