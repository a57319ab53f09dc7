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

// Keys (1981): the kernel with a = -1/2 reproduces polynomials of the second degree.
TEST_CASE("smooth depth is exact on a parabola, and bilinear beside land", "[sample]") {
  Grid<Metres32> field(Frame{{100, 500}, Metres(5), 20, 30});
  const auto floor = [](XY at) {
    return 5 + 0.02 * at.x - 0.0004 * (at.y - 450) * (at.y - 450) + 0.0001 * at.x * at.y;
  };
  for (std::size_t i = 0; i < field.size(); ++i) {
    field[i] = Metres32(static_cast<float>(floor(field.frame().centre(field.cell_of(i)))));
  }
  for (const XY at : {XY{137.1, 466.3}, XY{201, 431.9}, XY{180, 450}}) {
    CHECK(smooth_depth(field, at) == Approx(floor(at)).margin(1e-4));
  }
  // at the grid's rim there are no sixteen cells
  CHECK(smooth_depth(field, {104, 496}) == bilinear(field, {104, 496}));
  CHECK(std::isnan(smooth_depth(field, {90, 450})));
  // beside land, where the depth is 0, and beside the unknown
  const Cell beside = field.frame().cell_at({180, 450});
  for (const float value : {0.0F, std::numeric_limits<float>::quiet_NaN()}) {
    field[Cell{beside.row - 1, beside.col}] = Metres32(value);
    const XY near{181, 446};
    CHECK(smooth_depth(field, near) == bilinear(field, near));
  }
}
