// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/deep_water.hpp"

#include <algorithm>
#include <cmath>

#include "castplan/grid/hot.hpp"
#include "castplan/grid/sweep.hpp"

namespace castplan {

namespace {

// Deep water begins up to a cell before the centre of the first cell that is deep.
constexpr double kBefore = 1.001;

/// By column, NaN left out.
CASTPLAN_HOT void deepen(const Metres32* __restrict depths, int count, float* __restrict deepest) {
  for (int i = 0; i < count; ++i) deepest[i] = depths[i].value() > deepest[i] ? depths[i].value() : deepest[i];
}

}  // namespace

DeepWater::DeepWater(const Lake& lake)
    : lake_(lake),
      rows_((lake.depth.rows() + kSide - 1) / kSide),
      cols_((lake.depth.cols() + kSide - 1) / kSide),
      deepest_(static_cast<std::size_t>(rows_) * static_cast<std::size_t>(cols_), -1) {
  each(rows_, [&](int row) {
    std::vector<float> by_column(static_cast<std::size_t>(cols_) * kSide, -1);
    for (int r = row * kSide; r < std::min(lake.depth.rows(), (row + 1) * kSide); ++r) {
      deepen(lake.depth.row(r).data(), lake.depth.cols(), by_column.data());
    }
    for (int col = 0; col < cols_; ++col) {
      const auto first = by_column.begin() + static_cast<std::ptrdiff_t>(col) * kSide;
      deepest_[static_cast<std::size_t>(row) * static_cast<std::size_t>(cols_) + static_cast<std::size_t>(col)] =
          *std::max_element(first, first + kSide);
    }
  });
}

// Nearest first.
std::vector<DeepWater::Block> DeepWater::blocks_about(XY from, float enough, double within) const {
  const Frame& frame = lake_.depth.frame();
  const Cell middle = frame.cell_at(from);
  const int reach = static_cast<int>(within / frame.cell.value()) + 2;
  const auto block_of = [](int cell, int count) { return std::clamp(cell / kSide, 0, count - 1); };
  std::vector<Block> found;
  for (int row = block_of(middle.row - reach, rows_); row <= block_of(middle.row + reach, rows_); ++row) {
    for (int col = block_of(middle.col - reach, cols_); col <= block_of(middle.col + reach, cols_); ++col) {
      const int number = row * cols_ + col;
      if (!(deepest_[static_cast<std::size_t>(number)] >= enough)) continue;
      const XY north_west = frame.centre({row * kSide, col * kSide});
      const XY south_east = frame.centre({row * kSide + kSide - 1, col * kSide + kSide - 1});
      const double x = std::max({north_west.x - from.x, from.x - south_east.x, 0.0});
      const double y = std::max({south_east.y - from.y, from.y - north_west.y, 0.0});
      found.push_back({std::hypot(x, y), number});
    }
  }
  std::sort(found.begin(), found.end(),
            [](const Block& a, const Block& b) { return a.away != b.away ? a.away < b.away : a.number < b.number; });
  return found;
}

// To a deep cell, or to where the depth is passed on the way to it from a cell beside.
double DeepWater::into(Cell deep, XY from, float enough) const {
  const Frame& frame = lake_.depth.frame();
  const XY centre = frame.centre(deep);
  double nearest = distance(from, centre).value();
  const float below = lake_.depth[deep].value();
  for (const Cell beside : {Cell{deep.row - 1, deep.col}, Cell{deep.row + 1, deep.col}, Cell{deep.row, deep.col - 1},
                            Cell{deep.row, deep.col + 1}}) {
    if (!lake_.depth.holds(beside) || !(lake_.depth[beside].value() < enough)) continue;
    const double share = (below - enough) / (below - lake_.depth[beside].value());
    nearest = std::min(nearest, distance(from, centre + (frame.centre(beside) - centre) * share).value());
  }
  return nearest;
}

// Centres first, since they cost least and rule most others out.
double DeepWater::nearest_in(int block, XY from, float enough, double within) const {
  const Frame& frame = lake_.depth.frame();
  const Cell first{block / cols_ * kSide, block % cols_ * kSide};
  const Cell last{std::min(frame.rows, first.row + kSide), std::min(frame.cols, first.col + kSide)};
  const auto each_deep = [&](const auto& visit) {
    for (int row = first.row; row < last.row; ++row) {
      const auto depths = lake_.depth.row(row);
      for (int col = first.col; col < last.col; ++col) {
        if (!(depths[static_cast<std::size_t>(col)].value() >= enough)) continue;
        const XY away = frame.centre({row, col}) - from;
        visit(Cell{row, col}, dot(away, away));
      }
    }
  };
  double least = within * within;
  each_deep([&](Cell, double squared) { least = std::min(least, squared); });
  const double limit = std::sqrt(least) + kBefore * frame.cell.value();
  double nearest = within;
  each_deep([&](Cell cell, double squared) {
    if (squared <= limit * limit) nearest = std::min(nearest, into(cell, from, enough));
  });
  return nearest;
}

Metres DeepWater::distance_to(XY from, Metres depth, Metres within) const {
  const auto enough = static_cast<float>(depth.value());
  double nearest = within.value();
  for (const Block& block : blocks_about(from, enough, nearest)) {
    if (block.away > nearest + kBefore * lake_.depth.frame().cell.value()) break;
    nearest = std::min(nearest, nearest_in(block.number, from, enough, nearest));
  }
  return Metres(nearest);
}

}  // namespace castplan
