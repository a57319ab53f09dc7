// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <vector>

#include "castplan/grid/lake.hpp"

namespace castplan {

/// Three rows of cover with a cell of unknown cover more at each end, as outside the grid.
class CoverRows {
 public:
  explicit CoverRows(const Grid<Cover>& cover);
  /// Puts a row in the middle. Cheapest row by row southwards.
  void move_to(int row);

  /// Sides between the water of the row and anything else, and those of them with the unknown.
  struct Sides {
    std::int64_t all = 0;
    std::int64_t unknown = 0;
  };
  [[nodiscard]] Sides sides() const;

  /// Turns a row of values into depths: kept in water, 0 on land that touches water, NaN elsewhere.
  void keep_depths(std::span<Metres32> values) const;

 private:
  void read(int row);
  [[nodiscard]] const Cover* at(int row) const { return rows_[static_cast<std::size_t>(row + 3) % 3].data() + 1; }

  const Grid<Cover>& cover_;
  int row_ = -2;
  std::vector<Cover> rows_[3];
};

}  // namespace castplan
