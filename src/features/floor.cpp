// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/floor.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "castplan/grid/sample.hpp"
#include "castplan/grid/sweep.hpp"
#include "castplan/terrain/smooth.hpp"
#include "features/coarse.hpp"

namespace castplan {

namespace {

constexpr Metres kWidestBlock(6);
constexpr float kUnknown = std::numeric_limits<float>::quiet_NaN();

Metres32 block_mean(const Lake& lake, Cell first, int block) {
  double sum = 0;
  int water = 0;
  for (int row = std::max(0, first.row); row < std::min(lake.depth.rows(), first.row + block); ++row) {
    const auto depth = lake.depth.row(row);
    const auto cover = lake.cover.row(row);
    for (int col = std::max(0, first.col); col < std::min(lake.depth.cols(), first.col + block); ++col) {
      if (cover[col] != Cover::water) continue;
      sum += static_cast<double>(depth[col].value());
      ++water;
    }
  }
  return Metres32(2 * water < block * block || water == 0 ? kUnknown : static_cast<float>(sum / water));
}

double slope_between(float before, float here, float after, double cell) {
  const bool from = !std::isnan(before), to = !std::isnan(after);
  if (from && to) return (after - before) / (2 * cell);
  if (from) return (here - before) / cell;
  if (to) return (after - here) / cell;
  return 0;
}

}  // namespace

Floor floor_of(const Lake& lake, Metres scale) {
  const Frame& cells = lake.depth.frame();
  const int block = coarse_step(cells.cell, kWidestBlock);
  Frame frame = coarse_frame(cells, block);
  frame.corner = frame.corner + XY{-frame.cell.value(), frame.cell.value()};
  frame.rows += 2;
  frame.cols += 2;
  Grid<Metres32> level(frame);
  sweep(frame.rows, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      const auto out = level.row(row);
      for (int col = 0; col < frame.cols; ++col) {
        out[col] = block_mean(
            lake, {first_of(row, block, cells.rows, frame.rows), first_of(col, block, cells.cols, frame.cols)}, block);
      }
    }
  });
  return smoothed_at(std::move(level), scale);
}

Floor smoothed_at(Grid<Metres32> level, Metres scale) {
  const Metres sigma = std::max(scale, level.frame().cell * 1.25);
  Grid<Metres32> smooth = smoothed(level, sigma);
  return {std::move(level), std::move(smooth), sigma};
}

Metres unsmoothed_at(const Floor& floor, Cell at, Metres cell) {
  const auto value = [&](int row, int col) {
    const Cell there{at.row + row, at.col + col};
    return floor.smooth.holds(there) ? static_cast<double>(floor.smooth[there].value()) : std::nan("");
  };
  const double block = floor.smooth.frame().cell.value();
  const double bend = (value(0, 1) + value(0, -1) + value(1, 0) + value(-1, 0) - 4 * value(0, 0)) / (block * block);
  // a mean over k cells of side s adds (k^2 - 1) s^2 / 12 to the variance of the Gaussian
  const double variance =
      floor.scale.value() * floor.scale.value() + (block * block - cell.value() * cell.value()) / 12;
  return Metres(value(0, 0) - (std::isnan(bend) ? 0 : variance / 2 * bend));
}

double seen_wide(const Floor* floor, XY place, Metres from, Metres to) {
  if (floor == nullptr) return 1;
  const double seen = bilinear(floor->smooth, place);
  return std::isnan(seen) ? 1 : (seen - from.value()) / (to - from).value();
}

XY rise_at(const Grid<Metres32>& field, Cell at) {
  const auto value = [&](int row, int col) {
    return field.holds({row, col}) ? field[Cell{row, col}].value() : kUnknown;
  };
  const double cell = field.frame().cell.value();
  const float here = field[at].value();
  return {slope_between(value(at.row, at.col - 1), here, value(at.row, at.col + 1), cell),
          slope_between(value(at.row + 1, at.col), here, value(at.row - 1, at.col), cell)};
}

}  // namespace castplan
