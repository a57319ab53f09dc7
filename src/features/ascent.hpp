// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "castplan/grid/sweep.hpp"
#include "features/heights.hpp"

namespace castplan {

/// For each cell of a row the place of the highest of its 3 x 3 cells, counted from 0 in the north-west by row; the
/// first of equals; 4 is the cell itself; kNoAscent where the cell is NaN. Each row has a NaN before its first and
/// after its last cell: the pointers are to the first cell.
void ascent_row(const float* above, const float* here, const float* below, int count, std::uint8_t* out);
inline constexpr std::uint8_t kNoAscent = 9;

/// A band of rows with its heights, one row more on each side, and the direction of steepest ascent of each cell.
class AscentBand {
 public:
  AscentBand(const Heights& heights, const Band& band);

  [[nodiscard]] const Band& band() const { return band_; }
  [[nodiscard]] int cols() const { return cols_; }
  /// row: of the whole field, from one before the band to one past it; col: from -1 to cols().
  [[nodiscard]] const float* row(int number) const {
    return heights_.data() + static_cast<std::size_t>(number - band_.first + 1) * stride() + 1;
  }
  [[nodiscard]] std::span<const std::uint8_t> ascents(int row) const {
    const auto cols = static_cast<std::size_t>(cols_);
    return {ascents_.data() + static_cast<std::size_t>(row - band_.first) * cols, cols};
  }

 private:
  [[nodiscard]] std::size_t stride() const { return static_cast<std::size_t>(cols_) + 2; }

  Band band_;
  int cols_;
  std::vector<float> heights_;
  std::vector<std::uint8_t> ascents_;
};

}  // namespace castplan
