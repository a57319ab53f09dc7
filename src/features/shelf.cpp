// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/shelf.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace castplan {

namespace {

// Smoothing bends the floor for two sigma inside the true edge of a flat; a flat is grown back over water that lies
// within this much of its own plane. Design choice: the usual error of a depth.
constexpr double kOffPlane = 0.3;

Window window_around(const std::vector<Cell>& cells, const Frame& whole, int margin) {
  Cell low = cells.front(), high = cells.front();
  for (const Cell at : cells) {
    low = {std::min(low.row, at.row), std::min(low.col, at.col)};
    high = {std::max(high.row, at.row), std::max(high.col, at.col)};
  }
  low = {low.row - margin, low.col - margin};
  const double side = whole.cell.value();
  return {{{whole.corner.x + low.col * side, whole.corner.y - low.row * side},
           whole.cell,
           high.row + margin - low.row + 1,
           high.col + margin - low.col + 1},
          low};
}

template <class Visit>
void within(const Grid<Metres32>& grid, Cell middle, int reach, const Visit& visit) {
  for (int row = std::max(0, middle.row - reach); row <= std::min(grid.rows() - 1, middle.row + reach); ++row) {
    for (int col = std::max(0, middle.col - reach); col <= std::min(grid.cols() - 1, middle.col + reach); ++col) {
      visit(Cell{row, col});
    }
  }
}

/// Weighted sums for the plane depth = a + b x + c y about a place.
struct PlaneSums {
  double w = 0, x = 0, y = 0, z = 0, xx = 0, xy = 0, yy = 0, xz = 0, yz = 0;

  void add(double weight, XY away, double depth) {
    w += weight;
    x += weight * away.x;
    y += weight * away.y;
    z += weight * depth;
    xx += weight * away.x * away.x;
    xy += weight * away.x * away.y;
    yy += weight * away.y * away.y;
    xz += weight * away.x * depth;
    yz += weight * away.y * depth;
  }
  /// Depth of the plane of least squares at the place, by Cramer's rule. Its slope is drawn to zero as if 0.015 were
  /// its usual size and 0.15 m the noise of a cell (ridge regression), so that a sliver of cells gives no wild plane.
  [[nodiscard]] double at_place() const {
    constexpr double kRidge = 100;  // square metres: (0.15 / 0.015)^2
    const double sxx = xx + kRidge, syy = yy + kRidge;
    const double whole = w * (sxx * syy - xy * xy) - x * (x * syy - xy * y) + y * (x * xy - sxx * y);
    const double first = z * (sxx * syy - xy * xy) - x * (xz * syy - xy * yz) + y * (xz * xy - sxx * yz);
    return first / whole;
  }
};

/// Gaussian weights of the cells around one, by how many rows and columns they are away.
class Weights {
 public:
  explicit Weights(const Floor& floor)
      : reach_(static_cast<int>(std::ceil(floor.scale * 3 / floor.level.frame().cell))) {
    const double steps = floor.scale / floor.level.frame().cell;
    for (int i = 0; i <= reach_; ++i) weight_.push_back(std::exp(-i * i / (2 * steps * steps)));
  }
  [[nodiscard]] int reach() const { return reach_; }
  [[nodiscard]] int step() const { return reach_ < 6 ? 1 : 2; }
  [[nodiscard]] double at(int rows, int cols) const { return weight_[std::abs(rows)] * weight_[std::abs(cols)]; }

 private:
  int reach_;
  std::vector<double> weight_;
};

// How far a cell's depth lies from the plane of the flat's cells around it; infinite where none is near. The flat's
// cells lie inside its true edge and their own depths, not smoothed, know nothing of the slope beyond.
double off_plane(const Floor& floor, const Shelf& shelf, Cell at, const Weights& weights) {
  const double cell = floor.level.frame().cell.value();
  const Cell here = shelf.window.outer(at);
  PlaneSums sums;
  // every other row and column is enough for three numbers
  for (int row = -weights.reach(); row <= weights.reach(); row += weights.step()) {
    for (int col = -weights.reach(); col <= weights.reach(); col += weights.step()) {
      const Cell near{at.row + row, at.col + col};
      if (!shelf.part.holds(near) || shelf.part[near].value() == 0) continue;
      const float depth = floor.level[shelf.window.outer(near)].value();
      if (!std::isnan(depth)) sums.add(weights.at(row, col), {col * cell, -row * cell}, depth);
    }
  }
  if (sums.w == 0) return std::numeric_limits<double>::infinity();
  return std::abs(static_cast<double>(floor.level[here].value()) - sums.at_place());
}

}  // namespace

Shelf grown(const std::vector<Cell>& cells, const std::vector<Cell>& rim, const Floor& floor,
            const Components& groups) {
  const int reach = static_cast<int>(std::ceil(floor.scale * 2 / floor.smooth.frame().cell));
  const Window window = window_around(cells, floor.smooth.frame(), reach + 3);
  const Weights weights(floor);
  Shelf shelf{window, Grid<Metres32>(window.frame, Metres32(0))};
  for (const Cell at : cells) shelf.part[window.inner(at)] = Metres32(1);
  std::vector<Cell> last, added;
  for (const Cell at : rim) last.push_back(window.inner(at));
  std::vector<bool> tried(shelf.part.size());
  for (int layer = 0; layer < reach && !last.empty(); ++layer) {
    std::vector<Cell> next;
    for (const Cell from : last) {
      within(shelf.part, from, 1, [&](Cell near) {
        // corners count in every other layer, so that growth is about as far in all directions
        if (layer % 2 == 1 && near.row != from.row && near.col != from.col) return;
        const std::size_t index = shelf.part.index(near);
        if (tried[index] || shelf.part[near].value() > 0) return;
        tried[index] = true;
        // another flat's cells are taken
        const Cell at = window.outer(near);
        if (!floor.level.holds(at) || groups.label[at] >= 0 || std::isnan(floor.level[at].value())) return;
        if (off_plane(floor, shelf, near, weights) <= kOffPlane) next.push_back(near);
      });
    }
    added.insert(added.end(), next.begin(), next.end());
    last = std::move(next);
  }
  for (const Cell at : added) shelf.part[at] = Metres32(1);
  return shelf;
}

}  // namespace castplan
