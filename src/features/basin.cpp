// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/basin.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "castplan/features/merge_tree.hpp"
#include "castplan/grid/isoline.hpp"

namespace castplan {

namespace {

struct Window {
  int top, left, bottom, right;  // inclusive, with a margin of one cell that may lie off the grid
};

Window window_of(const Grid<Metres32>& field, const std::vector<std::size_t>& cells) {
  Window window{field.rows(), field.cols(), -1, -1};
  for (const std::size_t index : cells) {
    const Cell at = field.cell_of(index);
    window.top = std::min(window.top, at.row);
    window.bottom = std::max(window.bottom, at.row);
    window.left = std::min(window.left, at.col);
    window.right = std::max(window.right, at.col);
  }
  return {window.top - 1, window.left - 1, window.bottom + 1, window.right + 1};
}

// The field around one area, with everything else held below the level: another area beyond the pass does not join.
Grid<Metres32> alone(const Grid<Metres32>& field, const std::vector<std::size_t>& cells, float level) {
  const Window window = window_of(field, cells);
  const Frame& whole = field.frame();
  const double cell = whole.cell.value();
  const Frame frame{{whole.corner.x + window.left * cell, whole.corner.y - window.top * cell},
                    whole.cell,
                    window.bottom - window.top + 1,
                    window.right - window.left + 1};
  const float below = std::nextafter(level, -std::numeric_limits<float>::infinity());
  // where the field ends, the line runs half a cell out from a cell one unit above the level
  Grid<Metres32> part(frame, Metres32(level - 1));
  for (int row = std::max(window.top, 0); row <= std::min(window.bottom, field.rows() - 1); ++row) {
    for (int col = std::max(window.left, 0); col <= std::min(window.right, field.cols() - 1); ++col) {
      const float value = field[Cell{row, col}].value();
      if (!std::isnan(value)) part[Cell{row - window.top, col - window.left}] = Metres32(std::min(value, below));
    }
  }
  for (const std::size_t index : cells) {
    const Cell at = field.cell_of(index);
    part[Cell{at.row - window.top, at.col - window.left}] = field[index];
  }
  return part;
}

}  // namespace

Basin basin_above(const Grid<Metres32>& field, std::size_t summit, float level) {
  Basin basin{cells_above(field, summit, level), {}};
  if (!basin.cells.empty()) basin.outline = area_above(alone(field, basin.cells, level), level);
  return basin;
}

std::optional<float> highest_unknown_contact(const Grid<Metres32>& field, const Lake& lake,
                                             const std::vector<std::size_t>& cells) {
  std::optional<float> highest;
  const auto unknown = [&](Cell at) { return !lake.cover.holds(at) || lake.cover[at] == Cover::unknown; };
  for (const std::size_t index : cells) {
    const Cell at = field.cell_of(index);
    bool touches = false;
    for (int r = at.row - 1; r <= at.row + 1; ++r) {
      for (int c = at.col - 1; c <= at.col + 1; ++c) touches = touches || unknown({r, c});
    }
    if (touches) highest = std::max(highest.value_or(-std::numeric_limits<float>::infinity()), field[index].value());
  }
  return highest;
}

}  // namespace castplan
