// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/sample.hpp"

#include <algorithm>
#include <array>
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

template <class ValueAt>
float interpolated(const Frame& frame, XY place, const ValueAt& value) {
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
  const float top = weighted(value(Cell{r0, c0}), value(Cell{r0, c1}), east);
  const float bottom = weighted(value(Cell{r1, c0}), value(Cell{r1, c1}), east);
  return weighted(top, bottom, south);
}

// Of the four samples about a place a share (0 to 1) of the way from the second to the third.
std::array<double, 4> cubic_weights(double t, Cubic kind) {
  const double t2 = t * t, t3 = t2 * t;
  if (kind == Cubic::smoothing) {
    return {(1 - 3 * t + 3 * t2 - t3) / 6, (4 - 6 * t2 + 3 * t3) / 6, (1 + 3 * t + 3 * t2 - 3 * t3) / 6, t3 / 6};
  }
  return {-0.5 * t3 + t2 - 0.5 * t, 1.5 * t3 - 2.5 * t2 + 1, -1.5 * t3 + 2 * t2 + 0.5 * t, 0.5 * t3 - 0.5 * t2};
}

}  // namespace

float bilinear(const Grid<Metres32>& field, XY place) {
  return interpolated(field.frame(), place, [&field](Cell at) { return field[at].value(); });
}

float bilinear(const Frame& frame, XY place, const std::function<float(Cell)>& value) {
  return interpolated(frame, place, value);
}

double bicubic_at(const Grid<Metres32>& depth, XY pixel, Cubic kind) {
  constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
  const double left = std::floor(pixel.x), top = std::floor(pixel.y);
  // before any cast: far outside there is no such number
  if (!(left >= 1 && top >= 1 && left + 2 < depth.cols() && top + 2 < depth.rows())) return kNone;
  const auto across = cubic_weights(pixel.x - left, kind), down = cubic_weights(pixel.y - top, kind);
  const int col = static_cast<int>(left) - 1, row = static_cast<int>(top) - 1;
  double sum = 0;
  for (int r = 0; r < 4; ++r) {
    double line = 0;
    for (int c = 0; c < 4; ++c) {
      const double value = depth[Cell{row + r, col + c}].value();
      if (!(value > 0)) return kNone;
      line += across[static_cast<std::size_t>(c)] * value;
    }
    sum += down[static_cast<std::size_t>(r)] * line;
  }
  return sum;
}

float smooth_depth(const Grid<Metres32>& depth, XY place) {
  const Frame& frame = depth.frame();
  const XY pixel{(place.x - frame.corner.x) / frame.cell.value() - 0.5,
                 (frame.corner.y - place.y) / frame.cell.value() - 0.5};
  const double smooth = bicubic_at(depth, pixel);
  return smooth > 0 ? static_cast<float>(smooth) : bilinear(depth, place);
}

XY gradient_at(const Grid<Metres32>& field, XY place) {
  const double h = field.frame().cell.value();
  const auto along = [&](XY step) { return (bilinear(field, place + step) - bilinear(field, place - step)) / (2 * h); };
  return {along({h, 0}), along({0, h})};
}

}  // namespace castplan
