// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/merge_tree.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numeric>

#include "castplan/grid/sweep.hpp"

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
  std::vector<Index> next(field.size());
  sweep(rows, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < cols; ++col) {
        const auto here = static_cast<Index>(field.index({row, col}));
        next[here] = kOutside;
        if (std::isnan(field[here].value())) continue;
        Index best = here;
        float height = field[here].value();
        for (int r = std::max(0, row - 1); r <= std::min(rows - 1, row + 1); ++r) {
          const auto first = static_cast<Index>(field.index({r, 0}));
          for (int c = std::max(0, col - 1); c <= std::min(cols - 1, col + 1); ++c) {
            // a comparison with NaN is false; cells are visited in order, so the first of equals stays unless it is
            // here
            const float value = field[first + static_cast<Index>(c)].value();
            if (value > height || (value == height && first + static_cast<Index>(c) < best)) {
              best = first + static_cast<Index>(c);
              height = value;
            }
          }
        }
        next[here] = best;
      }
    }
  });
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

// Border cells between two summits' slopes in one row: forward neighbours only, so that each pair is seen once.
void passes_of_row(const Grid<Metres32>& field, const std::vector<Index>& summit_of, int row,
                   std::vector<Pass>& found) {
  constexpr std::array<std::array<int, 2>, 4> kForward{{{0, 1}, {1, -1}, {1, 0}, {1, 1}}};
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

// All passes, highest first.
std::vector<Pass> passes(const Grid<Metres32>& field, const std::vector<Index>& summit_of) {
  std::vector<std::vector<Pass>> by_band(static_cast<std::size_t>(band_count(field.rows())));
  sweep(field.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) passes_of_row(field, summit_of, row, by_band[band.number]);
  });
  std::vector<Pass> found;
  for (const std::vector<Pass>& part : by_band) found.insert(found.end(), part.begin(), part.end());
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
  std::vector<std::size_t> starts{from};
  const int last = field.cols() - 1;
  const auto open = [&](Cell at) { return !seen[field.index(at)] && field[at].value() > level; };
  // whole runs of a row at a time; each run then looks for new ones in the rows above and below
  while (!starts.empty()) {
    const Cell start = field.cell_of(starts.back());
    starts.pop_back();
    if (!open(start)) continue;
    int west = start.col, east = start.col;
    while (west > 0 && open({start.row, west - 1})) --west;
    while (east < last && open({start.row, east + 1})) ++east;
    for (int col = west; col <= east; ++col) {
      seen[field.index({start.row, col})] = true;
      found.push_back(field.index({start.row, col}));
    }
    for (const int row : {start.row - 1, start.row + 1}) {
      if (row < 0 || row >= field.rows()) continue;
      for (int col = std::max(0, west - 1); col <= std::min(last, east + 1); ++col) {
        if (!open({row, col})) continue;
        starts.push_back(field.index({row, col}));
        while (col < last && open({row, col + 1})) ++col;
      }
    }
  }
  return found;
}

}  // namespace castplan
