// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/merge_tree.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numeric>

namespace castplan {

namespace {

using Index = std::uint32_t;
constexpr Index kOutside = 0xFFFFFFFF;

// Total order of cells: higher first, the earlier cell of equals.
bool above(const Grid<Metres32>& field, Index a, Index b) {
  const float va = field[a].value();
  const float vb = field[b].value();
  return va > vb || (va == vb && a < b);
}

// Each cell points to its highest neighbour, or to itself on a summit.
std::vector<Index> ascents(const Grid<Metres32>& field) {
  const int rows = field.rows();
  const int cols = field.cols();
  std::vector<Index> next(field.size(), kOutside);
  for (int row = 0; row < rows; ++row) {
    for (int col = 0; col < cols; ++col) {
      const auto here = static_cast<Index>(field.index({row, col}));
      if (std::isnan(field[here].value())) continue;
      Index best = here;
      for (int r = std::max(0, row - 1); r <= std::min(rows - 1, row + 1); ++r) {
        for (int c = std::max(0, col - 1); c <= std::min(cols - 1, col + 1); ++c) {
          const auto there = static_cast<Index>(field.index({r, c}));
          if (!std::isnan(field[there].value()) && above(field, there, best)) best = there;
        }
      }
      next[here] = best;
    }
  }
  return next;
}

// Follows the ascents to the summit; every cell on the way is made to point there.
Index climb(std::vector<Index>& next, Index from) {
  Index top = from;
  while (next[top] != top) top = next[top];
  while (next[from] != top) {
    const Index step = next[from];
    next[from] = top;
    from = step;
  }
  return top;
}

struct Pass {
  float height;
  Index cell;  // the lower of the two cells
  Index a, b;  // summits, as numbers
};

// Border cells between two summits' slopes: forward neighbours only, so that each pair of cells is seen once.
std::vector<Pass> passes(const Grid<Metres32>& field, const std::vector<Index>& summit_of) {
  constexpr std::array<std::array<int, 2>, 4> kForward{{{0, 1}, {1, -1}, {1, 0}, {1, 1}}};
  std::vector<Pass> found;
  for (int row = 0; row < field.rows(); ++row) {
    for (int col = 0; col < field.cols(); ++col) {
      const auto here = static_cast<Index>(field.index({row, col}));
      if (summit_of[here] == kOutside) continue;
      for (const auto& [dr, dc] : kForward) {
        const Cell there_cell{row + dr, col + dc};
        if (!field.holds(there_cell)) continue;
        const auto there = static_cast<Index>(field.index(there_cell));
        if (summit_of[there] == kOutside || summit_of[there] == summit_of[here]) continue;
        const Index low = above(field, here, there) ? there : here;
        found.push_back({field[low].value(), low, summit_of[here], summit_of[there]});
      }
    }
  }
  std::sort(found.begin(), found.end(), [](const Pass& p, const Pass& q) {
    if (p.height != q.height) return p.height > q.height;
    if (p.cell != q.cell) return p.cell < q.cell;
    return std::minmax(p.a, p.b) < std::minmax(q.a, q.b);
  });
  return found;
}

Index root(std::vector<Index>& group, Index of) {
  while (group[of] != of) of = group[of] = group[group[of]];
  return of;
}

}  // namespace

std::vector<Summit> merge_tree(const Grid<Metres32>& field) {
  std::vector<Index> next = ascents(field);
  std::vector<Summit> summits;
  std::vector<Index> number(field.size(), kOutside);
  for (Index cell = 0; cell < next.size(); ++cell) {
    if (next[cell] != cell) continue;
    number[cell] = static_cast<Index>(summits.size());
    summits.push_back({cell, field[cell].value(), -1, 0, 0});
  }
  for (Index cell = 0; cell < next.size(); ++cell) {
    if (next[cell] != kOutside) number[cell] = number[climb(next, cell)];
  }
  // a group is named by its highest summit, so the elder rule is the choice of the name
  std::vector<Index> group(summits.size());
  std::iota(group.begin(), group.end(), Index{0});
  for (const Pass& pass : passes(field, number)) {
    Index elder = root(group, pass.a);
    Index younger = root(group, pass.b);
    if (elder == younger) continue;
    if (above(field, static_cast<Index>(summits[younger].cell), static_cast<Index>(summits[elder].cell))) {
      std::swap(elder, younger);
    }
    group[younger] = elder;
    summits[younger].parent = static_cast<int>(elder);
    summits[younger].pass = pass.height;
    summits[younger].pass_cell = pass.cell;
  }
  return summits;
}

std::vector<std::size_t> cells_above(const Grid<Metres32>& field, std::size_t from, float level) {
  std::vector<std::size_t> found;
  if (!(field[from].value() > level)) return found;
  std::vector<bool> seen(field.size());  // a bit a cell
  seen[from] = true;
  found.push_back(from);
  for (std::size_t at = 0; at < found.size(); ++at) {
    const Cell here = field.cell_of(found[at]);
    for (int r = here.row - 1; r <= here.row + 1; ++r) {
      for (int c = here.col - 1; c <= here.col + 1; ++c) {
        if (!field.holds({r, c})) continue;
        const std::size_t there = field.index({r, c});
        if (seen[there] || !(field[there].value() > level)) continue;
        seen[there] = true;
        found.push_back(there);
      }
    }
  }
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace castplan
