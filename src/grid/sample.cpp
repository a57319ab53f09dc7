// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/sample.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace castplan {

namespace {

// A weight of zero must not let a NaN through.
float weighted(float a, float b, float share) {
  if (share <= 0.0F) return a;
  if (share >= 1.0F) return b;
  return a + (b - a) * share;
}

}  // namespace

float bilinear(const Grid<Metres32>& field, XY place) {
  const Frame& frame = field.frame();
  const double col = (place.x - frame.corner.x) / frame.cell.value() - 0.5;
  const double row = (frame.corner.y - place.y) / frame.cell.value() - 0.5;
  // centres themselves are inside even when rounding puts them a hair out
  constexpr double kSlack = 1e-9;
  if (!(col >= -kSlack && row >= -kSlack && col <= frame.cols - 1 + kSlack && row <= frame.rows - 1 + kSlack)) {
    return std::numeric_limits<float>::quiet_NaN();
  }
  const int c0 = std::clamp(static_cast<int>(std::floor(col)), 0, frame.cols - 1);
  const int r0 = std::clamp(static_cast<int>(std::floor(row)), 0, frame.rows - 1);
  const int c1 = std::min(c0 + 1, frame.cols - 1);
  const int r1 = std::min(r0 + 1, frame.rows - 1);
  const auto east = static_cast<float>(col - c0);
  const auto south = static_cast<float>(row - r0);
  const float top = weighted(field[Cell{r0, c0}].value(), field[Cell{r0, c1}].value(), east);
  const float bottom = weighted(field[Cell{r1, c0}].value(), field[Cell{r1, c1}].value(), east);
  return weighted(top, bottom, south);
}

XY gradient_at(const Grid<Metres32>& field, XY place) {
  const double h = field.frame().cell.value();
  const auto along = [&](XY step) { return (bilinear(field, place + step) - bilinear(field, place - step)) / (2 * h); };
  return {along({h, 0}), along({0, h})};
}

}  // namespace castplan
