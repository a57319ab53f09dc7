// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/slope_change.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/grid/sample.hpp"

using namespace castplan;

namespace {

Grid<Metres32> whole(const FieldRows& field) {
  Grid<Metres32> out(field.frame);
  std::vector<Metres32> room(static_cast<std::size_t>(field.frame.cols));
  for (int row = 0; row < out.rows(); ++row) {
    const Metres32* values = field.row(row, room);
    std::copy(values, values + out.cols(), out.row(row).begin());
  }
  return out;
}

}  // namespace

// On z = x^3 / 600 + y the gradient is (x^2 / 200, 1) and the only second derivative is x / 100, so that g'Hg / g'g is
// (x^2 / 200)^2 x / 100 / (1 + (x^2 / 200)^2); differences over one cell add terms of the cell squared.
TEST_CASE("the change of slope is that of the formula, whole or at a place") {
  Grid<Metres32> field(Frame{{-30, 30}, Metres(0.5), 120, 120});
  for (std::size_t i = 0; i < field.size(); ++i) {
    const XY at = field.frame().centre(field.cell_of(i));
    field[i] = Metres32(static_cast<float>(at.x * at.x * at.x / 600 + at.y));
  }
  const SlopeChange change(field, 0.1F);
  const Grid<Metres32> rows = whole(change.rows());
  for (int row = 0; row < rows.rows(); row += 7) {
    for (int col = 0; col < rows.cols(); ++col) {
      const XY at = field.frame().centre({row, col});
      const float found = rows[Cell{row, col}].value();
      if (row == 0 || col == 0 || row == 119 || col == 119) {
        CHECK(std::isnan(found));
        continue;
      }
      const double gx = at.x * at.x / 200;
      CHECK(static_cast<double>(found) == Approx(gx * gx * at.x / 100 / (1 + gx * gx)).margin(2e-3));
    }
  }
  // at a place it is the interpolation of the whole, to the last bit
  for (double x = -29.9; x < 30; x += 0.37) {
    const XY at{x, 0.3 * x + 1};
    const float found = change.at(at);
    const float expected = bilinear(rows, at);
    CHECK((found == expected || (std::isnan(found) && std::isnan(expected))));
  }
}

TEST_CASE("a floor gentler than asked for has no change of slope") {
  Grid<Metres32> field(Frame{{0, 0}, Metres(1), 10, 10});
  for (std::size_t i = 0; i < field.size(); ++i) field[i] = Metres32(0.05F * static_cast<float>(field.cell_of(i).col));
  CHECK(std::isnan(whole(SlopeChange(field, 0.1F).rows())[Cell{5, 5}].value()));
  CHECK_FALSE(std::isnan(whole(SlopeChange(field, 0.01F).rows())[Cell{5, 5}].value()));
}
