// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "../src/write/map_buttons.hpp"

#include <catch2/catch.hpp>

using namespace castplan;

TEST_CASE("buttons of neighbouring spots do not cover each other") {
  // four boats within 20 pixels of each other, all casting north
  std::vector<Spot> spots(4);
  for (int i = 0; i < 4; ++i) {
    spots[i].boat = {i * 40.0, (i % 2) * 30.0};
    spots[i].target = spots[i].boat + XY{0, 18};
  }
  const auto offsets = button_offsets(spots, 4.0);
  REQUIRE(offsets.size() == 4);
  // the best stands behind its boat: south, which is down on the screen
  CHECK(offsets[0].x == Approx(0).margin(1e-9));
  CHECK(offsets[0].y == Approx(26));
  for (std::size_t i = 0; i < 4; ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      const XY a{spots[i].boat.x / 4 + offsets[i].x, -spots[i].boat.y / 4 + offsets[i].y};
      const XY b{spots[k].boat.x / 4 + offsets[k].x, -spots[k].boat.y / 4 + offsets[k].y};
      CHECK(distance(a, b).value() >= 32);
    }
  }
}

TEST_CASE("a pass has its button behind the beginning of its lane, and none lies on a spot's or another's") {
  std::vector<Spot> spots(3);
  std::vector<Pass> passes(3);
  for (int i = 0; i < 3; ++i) {
    const auto at = static_cast<std::size_t>(i);
    spots[at].boat = {1000 + i * 60.0, 0};
    spots[at].target = spots[at].boat + XY{0, 18};
    passes[at].lane = {{1000 + i * 60.0, -60}, {1000 + i * 60.0, 140}};
  }
  const auto by_spots = button_offsets(spots, 4.0);
  const auto offsets = button_offsets(passes, spots, 4.0);
  REQUIRE(offsets.size() == 3);
  std::vector<XY> middles;
  for (std::size_t i = 0; i < 3; ++i) {
    middles.push_back(XY{spots[i].boat.x / 4, -spots[i].boat.y / 4} + by_spots[i]);
    middles.push_back(XY{passes[i].lane[0].x / 4, -passes[i].lane[0].y / 4} + offsets[i]);
  }
  for (std::size_t i = 0; i < middles.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) CHECK(distance(middles[i], middles[k]).value() >= 32);
  }
  // far from any spot it stands straight behind: the lane goes north, so below on the screen
  passes[0].lane = {{5000, 0}, {5000, 100}};
  const XY alone = button_offsets(passes, spots, 4.0)[0];
  CHECK(alone.x == Approx(0).margin(1e-9));
  CHECK(alone.y == Approx(26));
}
