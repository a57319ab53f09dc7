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

/// sum += (a - b) + (c - d) + (e - f) + (g - h).
CASTPLAN_HOT void four_spans(const std::uint32_t* a, const std::uint32_t* b, const std::uint32_t* c,
                             const std::uint32_t* d, const std::uint32_t* e, const std::uint32_t* f,
                             const std::uint32_t* g, const std::uint32_t* h, int count, std::uint32_t* sum) {
  for (int i = 0; i < count; ++i) sum[i] += (a[i] - b[i]) + (c[i] - d[i]) + (e[i] - f[i]) + (g[i] - h[i]);
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

void DiscSums::row(Cell first, int count, std::uint32_t* out) const {
  // sums to the west of a column, or to the north of a row, stand one place before it: see line()
  const auto at = [&](const std::vector<std::uint32_t>& sums, int south, int east) {
    return &sums[line(first.row + south) + static_cast<std::size_t>(first.col + east + shape_.reach)];
  };
  const int s = shape_.square;
  corners(at(table_, s + 1, s + 1), at(table_, s + 1, -s), at(table_, -s, s + 1), at(table_, -s, -s), count, out);
  for (int away = s + 1; away <= shape_.reach; ++away) {
    const int w = shape_.half_width[static_cast<std::size_t>(away)];
    four_spans(at(along_row_, away + 1, w + 1), at(along_row_, away + 1, -w), at(along_row_, -away + 1, w + 1),
               at(along_row_, -away + 1, -w), at(numbers_, w + 1, away + 1), at(numbers_, -w, away + 1),
               at(numbers_, w + 1, -away + 1), at(numbers_, -w, -away + 1), count, out);
  }
}

std::uint32_t DiscSums::box(Cell first, int count) const {
  const int r = shape_.reach;
  const auto at = [&](int row, int col) { return table_[line(row) + static_cast<std::size_t>(col + r)]; };
  const int south = first.row + r + 1;
  const int east = first.col + count + r;
  return at(south, east) - at(south, first.col - r) - at(first.row - r, east) + at(first.row - r, first.col - r);
}

}  // namespace castplan
