// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/weed_density.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace castplan;

TEST_CASE("slope thins weeds: all up to 5 %, none from 20 %") {
  // the limits are a design choice after Duarte & Kalff (1986), remembered, not seen
  CHECK(weed_density_at(0) == 1.0);
  CHECK(weed_density_at(5) == 1.0);
  CHECK(weed_density_at(12.5) == Approx(0.5));
  CHECK(weed_density_at(20) == 0.0);
  CHECK(weed_density_at(90) == 0.0);
  CHECK(std::isnan(weed_density_at(std::nan(""))));
  // 15 % is 8.5308 degrees (atan 0.15); a third of the plants is left there
  CHECK(weed_density_at(100.0 * std::tan(8.5308 * std::acos(-1.0) / 180.0)) == Approx(1.0 / 3.0).margin(1e-4));
}
