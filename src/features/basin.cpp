// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/basin.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "castplan/grid/hot.hpp"
#include "castplan/grid/isoline.hpp"

namespace castplan {

namespace {

struct Window {
  int top, left, bottom, right;  // inclusive, with a margin of one cell that may lie off the grid
};

Window window_of(const Grid<Metres32>& field, const std::vector<Run>& runs) {
  Window window{field.rows(), field.cols(), -1, -1};
  for (const Run& run : runs) {
    window.top = std::min(window.top, run.row);
    window.bottom = std::max(window.bottom, run.row);
    window.left = std::min(window.left, run.first);
    window.right = std::max(window.right, run.last - 1);
  }
  return {window.top - 1, window.left - 1, window.bottom + 1, window.right + 1};
}

CASTPLAN_HOT void hold_below(const float* in, int count, float below, float unknown, Metres32* out) {
  for (int i = 0; i < count; ++i) {
    const float held = in[i] < below ? in[i] : below;
    out[i] = Metres32(in[i] == in[i] ? held : unknown);
  }
}

// The heights around one area, with everything else held below the level: another area beyond the pass does not join.
Grid<Metres32> alone(const Heights& heights, const std::vector<Run>& runs, float level) {
  const Window window = window_of(heights.field(), runs);
  const Frame& whole = heights.frame();
  const double cell = whole.cell.value();
  const Frame frame{{whole.corner.x + window.left * cell, whole.corner.y - window.top * cell},
                    whole.cell,
                    window.bottom - window.top + 1,
                    window.right - window.left + 1};
  const float below = std::nextafter(level, -std::numeric_limits<float>::infinity());
  // where the field ends, the line runs half a cell out from a cell one unit above the level
  Grid<Metres32> part(frame, Metres32(level - 1));
  const int first = std::max(window.left, 0);
  const auto cols = static_cast<std::size_t>(std::min(window.right, whole.cols - 1) - first + 1);
  std::vector<float> row_heights(cols);
  for (int row = std::max(window.top, 0); row <= std::min(window.bottom, whole.rows - 1); ++row) {
    heights.copy_row(row, first, row_heights);
    const auto out = part.row(row - window.top).subspan(static_cast<std::size_t>(first - window.left), cols);
    hold_below(row_heights.data(), static_cast<int>(cols), below, level - 1, out.data());
  }
  for (const Run& run : runs) {
    const auto length = static_cast<std::size_t>(run.last - run.first);
    row_heights.resize(length);
    heights.copy_row(run.row, run.first, row_heights);
    const auto out = part.row(run.row - window.top).subspan(static_cast<std::size_t>(run.first - window.left), length);
    std::transform(row_heights.begin(), row_heights.end(), out.begin(), [](float height) { return Metres32(height); });
  }
  return part;
}

// Whether any of the cells from one column to another is unknown, or off the map.
bool any_unknown(const Lake& lake, int row, int first, int last) {
  if (row < 0 || row >= lake.cover.rows() || first < 0 || last > lake.cover.cols()) return true;
  const auto cells =
      lake.cover.row(row).subspan(static_cast<std::size_t>(first), static_cast<std::size_t>(last - first));
  return std::find(cells.begin(), cells.end(), Cover::unknown) != cells.end();
}

}  // namespace

Basin basin_above(const Heights& heights, std::size_t summit, float level) {
  Basin basin{runs_above(heights, summit, level), {}};
  if (!basin.runs.empty()) basin.outline = area_above(alone(heights, basin.runs, level), level);
  return basin;
}

bool may_touch_unknown(const Lake& lake) {
  const auto known = [](Metres32 depth) { return !std::isnan(depth.value()); };
  const int last = lake.depth.rows() - 1;
  for (int row = 0; row <= last; ++row) {
    const auto depths = lake.depth.row(row);
    const auto covers = lake.cover.row(row);
    if (std::find(covers.begin(), covers.end(), Cover::unknown) != covers.end()) return true;
    if (known(depths.front()) || known(depths.back())) return true;
    if ((row == 0 || row == last) && std::any_of(depths.begin(), depths.end(), known)) return true;
  }
  return false;
}

std::optional<float> highest_unknown_contact(const Heights& heights, const Lake& lake, const std::vector<Run>& runs) {
  std::optional<float> highest;
  const auto touches = [&](int row, int first, int last) {
    return any_unknown(lake, row - 1, first, last) || any_unknown(lake, row, first, last) ||
           any_unknown(lake, row + 1, first, last);
  };
  for (const Run& run : runs) {
    // mostly a run touches nothing unknown, which is told at once for all of its cells
    if (!touches(run.row, run.first - 1, run.last + 1)) continue;
    for (int col = run.first; col < run.last; ++col) {
      if (!touches(run.row, col - 1, col + 2)) continue;
      const float height = heights[heights.field().index({run.row, col})];
      highest = std::max(highest.value_or(-std::numeric_limits<float>::infinity()), height);
    }
  }
  return highest;
}

}  // namespace castplan
