// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <vector>

#include "castplan/grid/frame.hpp"
#include "terrain/disc_shape.hpp"

namespace castplan {

/// Sums over discs of whole numbers in a tile with a halo: the inner square from a summed-area table (Crow 1984,
/// Computer Graphics 18(3), 207-212), the caps from running sums along rows and along columns. Everything is modulo
/// 2^32, so that only the sum of one disc has to fit.
class DiscSums {
 public:
  /// A tile of at most so many cells.
  DiscSums(const DiscShape& shape, int rows, int cols);

  /// Where the numbers of a row of the tile go, halo included: width() of them. row: -reach to rows + reach - 1.
  std::uint32_t* input(int row) { return &numbers_[line(row + 1) + 1]; }
  [[nodiscard]] int width() const { return cols_ + 2 * shape_.reach; }
  /// To be called once the input of all rows is there.
  void add_up();
  /// Sums of the discs about so many cells of a row of the tile.
  void row(Cell first, int count, std::uint32_t* out) const;
  /// Sum over the smallest box that holds all those discs.
  [[nodiscard]] std::uint32_t box(Cell first, int count) const;

 private:
  /// Rows begin with one more row, and each row with one more cell, of zeros.
  [[nodiscard]] std::size_t line(int row) const { return static_cast<std::size_t>(row + shape_.reach) * stride_; }

  const DiscShape& shape_;
  int rows_, cols_;
  std::size_t stride_;
  std::vector<std::uint32_t> numbers_;  ///< then sums along columns, from the north to each cell
  std::vector<std::uint32_t> along_row_, table_;
};

}  // namespace castplan
