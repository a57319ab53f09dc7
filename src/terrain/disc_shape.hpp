// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cmath>
#include <cstdlib>
#include <vector>

namespace castplan {

/// Cells (dx, dy) with dx^2 + dy^2 <= r^2: an inner square, and beyond each of its sides a cap of rows or columns that
/// get shorter outwards.
struct DiscShape {
  explicit DiscShape(double radius)
      : reach(static_cast<int>(std::floor(radius + 1e-9))),
        square(static_cast<int>(std::floor(radius / std::sqrt(2.0) + 1e-9))) {
    for (int away = 0; away <= reach; ++away) {
      const double left = radius * radius - static_cast<double>(away) * away;
      half_width.push_back(static_cast<int>(std::floor(std::sqrt(left > 0 ? left : 0) + 1e-9)));
    }
    for (int away = -reach; away <= reach; ++away)
      cells += 2 * half_width[static_cast<std::size_t>(std::abs(away))] + 1;
  }

  int reach;                    ///< furthest row or column
  int square;                   ///< furthest row and column of the inner square
  std::vector<int> half_width;  ///< by distance of the row (or column) from the middle
  long long cells = 0;
};

}  // namespace castplan
