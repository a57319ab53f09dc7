// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/deep_water.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

/// Every cell of the lake is asked, one after the other.
double by_every_cell(const Lake& lake, XY from, float enough, double within) {
  const Frame& frame = lake.depth.frame();
  double nearest = within;
  for (std::size_t i = 0; i < lake.depth.size(); ++i) {
    const Cell cell = lake.depth.cell_of(i);
    const float here = lake.depth[i].value();
    if (!(here >= enough)) continue;
    nearest = std::min(nearest, distance(from, frame.centre(cell)).value());
    for (const auto& [row, col] : {std::pair{-1, 0}, {1, 0}, {0, -1}, {0, 1}}) {
      const Cell beside{cell.row + row, cell.col + col};
      if (!lake.depth.holds(beside) || !(lake.depth[beside].value() < enough)) continue;
      const double share = (here - enough) / (here - lake.depth[beside].value());
      const XY passed = frame.centre(cell) + (frame.centre(beside) - frame.centre(cell)) * share;
      nearest = std::min(nearest, distance(from, passed).value());
    }
  }
  return nearest;
}

}  // namespace

TEST_CASE("deep water beside a plane floor lies where its depth is passed") {
  // 10 m deep at x = 0, 5 % to the east
  const Lake lake = lake_of(filled(frame_about(Metres(200), Metres(4)), [](XY at) { return 10 + 0.05 * at.x; }));
  const DeepWater deep(lake);
  for (const double x : {-90.0, -30.5, 0.0, 41.0}) {
    INFO("from " << x);
    CHECK(deep.distance_to({x, 3}, Metres(12), Metres(150)).value() == Approx(std::max(0.0, 40 - x)).margin(2));
    CHECK(deep.distance_to({x, 3}, Metres(40), Metres(150)) == Metres(150));
  }
  CHECK(deep.distance_to({-150, 3}, Metres(12), Metres(150)) == Metres(150));
}

TEST_CASE("deep water is as near as a search through every cell finds it") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> anywhere(-230, 230), phase(0, 6.28);
  int found = 0;
  for (int round = 0; round < 6; ++round) {
    const double a = phase(random), b = phase(random), c = phase(random);
    const Lake lake = lake_of(filled(frame_about(Metres(220), Metres(3)), [&](XY at) {
      const double depth =
          6 + 5 * std::sin(at.x / 37 + a) * std::cos(at.y / 53 + b) + 2 * std::sin((at.x + at.y) / 11 + c);
      return std::hypot(at.x - 60, at.y) < 25 || depth < 0.3 ? static_cast<double>(kLand.value()) : depth;
    }));
    const DeepWater deep(lake);
    for (int i = 0; i < 40; ++i) {
      const XY from{anywhere(random), anywhere(random)};
      for (const double depth : {4.0, 9.0, 12.5, 14.0}) {
        const double expected = by_every_cell(lake, from, static_cast<float>(depth), 150);
        CHECK(deep.distance_to(from, Metres(depth), Metres(150)).value() == expected);
        found += expected < 150 ? 1 : 0;
      }
    }
  }
  CHECK(found > 300);
  CHECK(found < 950);
}
