// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/merge_tree.hpp"

#include <numeric>
#include <utility>

#include "features/flood.hpp"
#include "features/slopes.hpp"

namespace castplan {

namespace {

// Total order of summits: higher first, the earlier cell of equals.
bool above(const Summit& a, const Summit& b) {
  return a.height > b.height || (a.height == b.height && a.cell < b.cell);
}

Index root(std::vector<Index>& group, Index of) {
  while (group[of] != of) of = group[of] = group[group[of]];
  return of;
}

}  // namespace

std::vector<Summit> merge_tree(const Heights& heights) {
  const Slopes slopes(heights);
  std::vector<Summit> summits;
  summits.reserve(slopes.summits().size());
  for (const Index cell : slopes.summits()) summits.push_back({cell, heights[cell], -1, 0, 0});
  // a group is named by its highest summit, so the elder rule is the choice of the name
  std::vector<Index> group(summits.size());
  std::iota(group.begin(), group.end(), Index{0});
  for (const SummitPass& pass : slopes.passes()) {
    Index elder = root(group, pass.a);
    Index younger = root(group, pass.b);
    if (elder == younger) continue;
    if (above(summits[younger], summits[elder])) std::swap(elder, younger);
    group[younger] = elder;
    summits[younger].parent = static_cast<int>(elder);
    summits[younger].pass = pass.height;
    summits[younger].pass_cell = pass.cell;
  }
  return summits;
}

std::vector<Summit> merge_tree(const Grid<Metres32>& field) { return merge_tree(Heights(field)); }

std::vector<std::size_t> cells_above(const Grid<Metres32>& field, std::size_t from, float level) {
  std::vector<std::size_t> found;
  for (const Run& run : runs_above(Heights(field), from, level)) {
    for (int col = run.first; col < run.last; ++col) found.push_back(field.index({run.row, col}));
  }
  return found;
}

}  // namespace castplan
