// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/sample.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "support/lakes.hpp"

using namespace castplan;

namespace {

Grid<Metres32> plane() {
  return lakes::filled(lakes::frame_about(Metres(50), Metres(5)), [](XY at) { return 3 + 0.2 * at.x - 0.1 * at.y; });
}

}  // namespace

TEST_CASE("bilinear interpolation is exact on a plane") {
  const Grid<Metres32> field = plane();
  for (double x = -40; x <= 40; x += 3.7) {
    for (double y = -40; y <= 40; y += 4.1) {
      CHECK(bilinear(field, {x, y}) == Approx(3 + 0.2 * x - 0.1 * y).margin(1e-5));
      const XY gradient = gradient_at(field, {x, y});
      CHECK(gradient.x == Approx(0.2).margin(1e-6));
      CHECK(gradient.y == Approx(-0.1).margin(1e-6));
    }
  }
}

TEST_CASE("unknown cells with weight make the value unknown, those without do not") {
  Grid<Metres32> field = plane();
  const Cell hole{8, 8};
  field[hole] = lakes::kUnknown;
  const XY beside = field.frame().centre({8, 9});
  CHECK(std::isnan(bilinear(field, field.frame().centre(hole))));
  CHECK(std::isnan(bilinear(field, beside - XY{0.1, 0})));
  CHECK_FALSE(std::isnan(bilinear(field, beside)));
  CHECK(std::isnan(gradient_at(field, beside).x));
}

TEST_CASE("outside the outermost centres nothing is known") {
  const Grid<Metres32> field = plane();
  const XY corner = field.frame().centre({0, 0});
  CHECK_FALSE(std::isnan(bilinear(field, corner)));
  CHECK(std::isnan(bilinear(field, corner - XY{1, 0})));
  CHECK(std::isnan(bilinear(field, corner + XY{0, 1})));
}
