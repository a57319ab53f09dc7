// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/wide_floor.hpp"

#include <algorithm>
#include <cmath>

#include "castplan/grid/sweep.hpp"

namespace castplan {

namespace {

Grid<std::uint8_t> gentle_cells(const Floor& floor, double grade_pct) {
  Grid<std::uint8_t> gentle(floor.smooth.frame(), 0);
  sweep(gentle.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < gentle.cols(); ++col) {
        if (std::isnan(floor.smooth[Cell{row, col}].value())) continue;
        const XY rise = rise_at(floor.smooth, {row, col});
        gentle[Cell{row, col}] = 1e4 * dot(rise, rise) <= grade_pct * grade_pct ? 1 : 0;
      }
    }
  });
  return gentle;
}

using Mask = Grid<std::uint8_t>;

/// Steps to the cells whose centres lie within a distance.
std::vector<Cell> steps_within(Metres distance, Metres cell) {
  std::vector<Cell> steps;
  const int reach = static_cast<int>(distance / cell + 1e-9);
  for (int row = -reach; row <= reach; ++row) {
    for (int col = -reach; col <= reach; ++col) {
      if (cell * std::hypot(row, col) <= distance + Metres(1e-9)) steps.push_back({row, col});
    }
  }
  return steps;
}

// Cells of a mask for which all cells within reach (any, when dilating) are set; `only` limits which are asked.
Mask morphed(const Mask& mask, const Mask& only, const std::vector<Cell>& steps, bool dilate) {
  Mask out(mask.frame(), 0);
  sweep(mask.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < mask.cols(); ++col) {
        if (only[Cell{row, col}] == 0) continue;
        const auto set = [&](Cell step) {
          const Cell at{row + step.row, col + step.col};
          return mask.holds(at) && mask[at] != 0;
        };
        out[Cell{row, col}] = dilate ? std::any_of(steps.begin(), steps.end(), set) ? 1 : 0
                              : std::all_of(steps.begin(), steps.end(), set) ? 1
                                                                             : 0;
      }
    }
  });
  return out;
}

}  // namespace

Components wide_floor(const Floor& floor, const DetectOptions& options) {
  const Frame& frame = floor.smooth.frame();
  const Mask gentle = gentle_cells(floor, options.flat_grade_pct);
  const auto steps = steps_within(std::max(options.flat_width / 2 - floor.scale, frame.cell), frame.cell);
  const Mask wide = morphed(morphed(gentle, gentle, steps, false), gentle, steps, true);
  return components(frame, [&](Cell at) { return wide[at] != 0; });
}

std::vector<std::vector<Cell>> cells_by_group(const Components& groups) {
  std::vector<std::vector<Cell>> cells(static_cast<std::size_t>(groups.count));
  for (std::size_t at = 0; at < groups.label.size(); ++at) {
    if (groups.label[at] >= 0) cells[static_cast<std::size_t>(groups.label[at])].push_back(groups.label.cell_of(at));
  }
  return cells;
}

std::vector<Cell> rim_cells(const std::vector<Cell>& cells, const Components& groups) {
  std::vector<Cell> rim;
  for (const Cell at : cells) {
    const std::int32_t own = groups.label[at];
    bool inside = true;
    for (int row = at.row - 1; row <= at.row + 1 && inside; ++row) {
      for (int col = at.col - 1; col <= at.col + 1; ++col) inside = inside && groups.label[Cell{row, col}] == own;
    }
    if (!inside) rim.push_back(at);
  }
  return rim;
}

}  // namespace castplan
