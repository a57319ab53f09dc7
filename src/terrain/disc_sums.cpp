// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "terrain/disc_sums.hpp"

#include <algorithm>

#include "castplan/grid/hot.hpp"

namespace castplan {
namespace {

CASTPLAN_HOT void add_row(const std::uint32_t* more, int count, std::uint32_t* sum) {
  for (int i = 0; i < count; ++i) sum[i] += more[i];
}

/// sum = a - b - c + d.
CASTPLAN_HOT void corners(const std::uint32_t* a, const std::uint32_t* b, const std::uint32_t* c,
                          const std::uint32_t* d, int count, std::uint32_t* sum) {
  for (int i = 0; i < count; ++i) sum[i] = a[i] - b[i] - c[i] + d[i];
}

/// sum += (a - b) + (c - d).
CASTPLAN_HOT void two_spans(const std::uint32_t* a, const std::uint32_t* b, const std::uint32_t* c,
                            const std::uint32_t* d, int count, std::uint32_t* sum) {
  for (int i = 0; i < count; ++i) sum[i] += (a[i] - b[i]) + (c[i] - d[i]);
}

}  // namespace

DiscSums::DiscSums(const DiscShape& shape, int rows, int cols)
    : shape_(shape),
      rows_(rows),
      cols_(cols),
      stride_(static_cast<std::size_t>(cols) + 2 * static_cast<std::size_t>(shape.reach) + 1),
      numbers_(stride_ * (static_cast<std::size_t>(rows) + 2 * static_cast<std::size_t>(shape.reach) + 1)),
      along_row_(numbers_.size()),
      table_(numbers_.size()) {}

void DiscSums::add_up() {
  const auto width = static_cast<int>(stride_);
  for (int row = -shape_.reach; row < rows_ + shape_.reach; ++row) {
    const std::size_t here = line(row + 1);
    std::uint32_t sum = 0;
    for (std::size_t i = 1; i < stride_; ++i) along_row_[here + i] = sum += numbers_[here + i];
    std::copy_n(&along_row_[here], stride_, &table_[here]);
    add_row(&table_[here - stride_], width, &table_[here]);
    add_row(&numbers_[here - stride_], width, &numbers_[here]);
  }
}

void DiscSums::row(int number, int count, std::uint32_t* out) const {
  // sums to the west of a column, or to the north of a row, stand one place before it: see line()
  const auto at = [&](const std::vector<std::uint32_t>& sums, int row, int col) {
    return &sums[line(row) + static_cast<std::size_t>(col + shape_.reach)];
  };
  const int s = shape_.square;
  corners(at(table_, number + s + 1, s + 1), at(table_, number + s + 1, -s), at(table_, number - s, s + 1),
          at(table_, number - s, -s), count, out);
  for (int away = s + 1; away <= shape_.reach; ++away) {
    const int w = shape_.half_width[static_cast<std::size_t>(away)];
    two_spans(at(along_row_, number + away + 1, w + 1), at(along_row_, number + away + 1, -w),
              at(along_row_, number - away + 1, w + 1), at(along_row_, number - away + 1, -w), count, out);
    two_spans(at(numbers_, number + w + 1, away + 1), at(numbers_, number - w, away + 1),
              at(numbers_, number + w + 1, -away + 1), at(numbers_, number - w, -away + 1), count, out);
  }
}

}  // namespace castplan
