// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "castplan/features/merge_tree.hpp"
#include "features/heights.hpp"

namespace castplan {

/// Cells of one row, side by side.
struct Run {
  int row;
  int first;
  int last;  ///< one past the last column
};

/// The cells joined to a cell over cells above the level, by runs, in the order in which the flood meets them; see
/// `cells_above`. Its cost is that of the cells found, whatever the size of the field.
std::vector<Run> runs_above(const Heights& heights, std::size_t from, float level);

/// As for a grid.
std::vector<Summit> merge_tree(const Heights& heights);

}  // namespace castplan
