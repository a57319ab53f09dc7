// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/from_land.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "castplan/grid/distance.hpp"
#include "castplan/grid/sweep.hpp"

namespace castplan {

namespace {

struct Stretch {
  int first;
  int last;  ///< one past the last column
};
using Stretches = std::vector<Stretch>;

/// Cells of one row of a tile that are taken and far from land.
void append_far(std::span<const GroupRun> runs, const std::vector<bool>& taken, std::span<const Metres32> distances,
                int first_col, Metres32 distance, Stretches& out) {
  const int last_col = first_col + static_cast<int>(distances.size());
  for (const GroupRun& run : runs) {
    if (!taken[static_cast<std::size_t>(run.group)]) continue;
    for (int col = std::max(run.first, first_col); col < std::min(run.last, last_col); ++col) {
      if (!(distances[static_cast<std::size_t>(col - first_col)] > distance)) continue;
      if (out.empty() || out.back().last != col) out.push_back({col, col});
      out.back().last = col + 1;
    }
  }
}

bool any_taken(std::span<const GroupRun> runs, const std::vector<bool>& taken, int first, int last) {
  return std::any_of(runs.begin(), runs.end(), [&](const GroupRun& run) {
    return run.first < last && run.last > first && taken[static_cast<std::size_t>(run.group)];
  });
}

}  // namespace

FromLand::FromLand(const Lake& lake, Metres limit)
    : lake_(&lake), reach_(static_cast<int>(std::ceil(limit / lake.depth.frame().cell)) + 1) {}

Grid<Metres32> FromLand::around(Cell corner, int rows, int cols) const {
  const Frame& whole = lake_->cover.frame();
  const Cell low{std::max(corner.row - reach_, 0), std::max(corner.col - reach_, 0)};
  const Cell high{std::min(corner.row + rows + reach_, whole.rows), std::min(corner.col + cols + reach_, whole.cols)};
  const Frame frame{whole.corner, whole.cell, high.row - low.row, high.col - low.col};
  const Grid<Metres32> distance = distance_to_marks(frame, [&](int row, int first, std::span<std::uint8_t> out) {
    const auto covers = lake_->cover.row(row + low.row).subspan(static_cast<std::size_t>(first + low.col), out.size());
    std::transform(covers.begin(), covers.end(), out.begin(),
                   [](Cover is) { return static_cast<std::uint8_t>(is == Cover::land); });
  });
  Grid<Metres32> out(Frame{whole.corner, whole.cell, rows, cols}, Metres32(std::numeric_limits<float>::infinity()));
  for (int row = std::max(corner.row, 0); row < std::min(corner.row + rows, whole.rows); ++row) {
    const int first = std::max(corner.col, 0);
    const int last = std::min(corner.col + cols, whole.cols);
    const auto in = distance.row(row - low.row).subspan(static_cast<std::size_t>(first - low.col));
    std::copy_n(in.begin(), last - first, out.row(row - corner.row).begin() + (first - corner.col));
  }
  return out;
}

Groups cells_beyond(const Groups& groups, const std::vector<bool>& taken, const FromLand& from_land, Metres distance) {
  const Frame& frame = groups.frame();
  // tiles at least as wide as the halo on both sides, so that the halo costs no more than three times the tile
  const int side = std::max(kBandRows, 2 * from_land.reach());
  std::vector<Stretches> far(static_cast<std::size_t>(frame.rows));
  each((frame.rows + side - 1) / side, [&](int tile_row) {
    const int top = tile_row * side;
    const int bottom = std::min(top + side, frame.rows);
    for (int left = 0; left < frame.cols; left += side) {
      const int right = std::min(left + side, frame.cols);
      bool any = false;
      for (int row = top; row < bottom && !any; ++row) any = any_taken(groups.row(row), taken, left, right);
      if (!any) continue;
      const Grid<Metres32> distances = from_land.around({top, left}, bottom - top, right - left);
      for (int row = top; row < bottom; ++row) {
        append_far(groups.row(row), taken, distances.row(row - top), left, Metres32(distance),
                   far[static_cast<std::size_t>(row)]);
      }
    }
  });
  return groups_of(frame, [&](int row, int first, std::span<std::uint8_t> out) {
    std::fill(out.begin(), out.end(), std::uint8_t{0});
    const int end = first + static_cast<int>(out.size());
    for (const Stretch& stretch : far[static_cast<std::size_t>(row)]) {
      for (int col = std::max(stretch.first, first); col < std::min(stretch.last, end); ++col) {
        out[static_cast<std::size_t>(col - first)] = 1;
      }
    }
  });
}

}  // namespace castplan
