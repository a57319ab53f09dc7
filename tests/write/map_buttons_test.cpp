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
