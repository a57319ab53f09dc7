// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cmath>
#include <limits>

#include "castplan/grid/grid.hpp"

namespace castplan::bench {

/// A lake with a wavy shore, basins and humps of several sizes, about 57 % of the square, the same at every size: the
/// forms stay and only the cells grow finer. Positive is water; NaN outside.
inline Grid<Metres32> synthetic_lake(int side, Metres cell) {
  Grid<Metres32> depth(Frame{{400000, 5040000}, cell, side, side});
  const double span = side * cell.value();
  for (int row = 0; row < side; ++row) {
    for (int col = 0; col < side; ++col) {
      const double x = (col + 0.5) / side - 0.5;
      const double y = (row + 0.5) / side - 0.5;
      const double angle = std::atan2(y, x);
      const double shore = 0.42 + 0.03 * std::sin(3 * angle) + 0.015 * std::sin(11 * angle + 1);
      const double inwards = shore - std::hypot(x, y);
      if (inwards <= 0) {
        depth[Cell{row, col}] = Metres32(std::numeric_limits<float>::quiet_NaN());
        continue;
      }
      // waves of fixed length in metres, so that a larger lake has more of them
      const double u = x * span, v = y * span;
      const double basins = std::sin(u / 310) * std::cos(v / 270) + 0.5 * std::sin((u + v) / 120);
      const double shelf = 1 - std::exp(-inwards * span / 60);
      depth[Cell{row, col}] = Metres32(static_cast<float>(0.2 + shelf * (8 + 5 * basins)));
    }
  }
  return depth;
}

}  // namespace castplan::bench
