// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "terrain/disc_sums.hpp"

#include <algorithm>
#include <array>
#include <cstring>
#include <span>
#include <vector>

#include "castplan/grid/hot.hpp"

namespace castplan {
namespace {

CASTPLAN_HOT void add_rows(const std::uint32_t* a, const std::uint32_t* b, int count, std::uint32_t* __restrict sum) {
  for (int i = 0; i < count; ++i) sum[i] = a[i] + b[i];
}
CASTPLAN_HOT void add_row(const std::uint32_t* more, int count, std::uint32_t* __restrict sum) {
  for (int i = 0; i < count; ++i) sum[i] += more[i];
}

/// sum = a - b - c + d.
CASTPLAN_HOT void corners(const std::uint32_t* a, const std::uint32_t* b, const std::uint32_t* c,
                          const std::uint32_t* d, int count, std::uint32_t* sum) {
  for (int i = 0; i < count; ++i) sum[i] = a[i] - b[i] - c[i] + d[i];
}

/// Where the running sums that bound the four caps at one distance from the middle begin: ends less starts.
struct Caps {
  std::array<const std::uint32_t*, 4> ends, starts;
};

/// Eight numbers that may begin anywhere.
using Lane = std::uint32_t __attribute__((vector_size(32), aligned(alignof(std::uint32_t)), may_alias));
constexpr int kLane = 8;

inline const Lane& lane(const std::uint32_t* at) { return *reinterpret_cast<const Lane*>(at); }

/// Adds all caps to as many sums as four lanes hold; those stay in registers meanwhile.
inline void add_to_lanes(std::span<const Caps> caps, int first, std::uint32_t* sum) {
  Lane s0 = lane(sum), s1 = lane(sum + kLane), s2 = lane(sum + 2 * kLane), s3 = lane(sum + 3 * kLane);
  for (const Caps& at : caps) {
    for (std::size_t side = 0; side < at.ends.size(); ++side) {
      const std::uint32_t *a = at.ends[side] + first, *b = at.starts[side] + first;
      s0 += lane(a) - lane(b);
      s1 += lane(a + kLane) - lane(b + kLane);
      s2 += lane(a + 2 * kLane) - lane(b + 2 * kLane);
      s3 += lane(a + 3 * kLane) - lane(b + 3 * kLane);
    }
  }
  std::memcpy(sum, &s0, sizeof s0);
  std::memcpy(sum + kLane, &s1, sizeof s1);
  std::memcpy(sum + 2 * kLane, &s2, sizeof s2);
  std::memcpy(sum + 3 * kLane, &s3, sizeof s3);
}

CASTPLAN_HOT void add_caps(std::span<const Caps> caps, int count, std::uint32_t* sum) {
  int first = 0;
  for (; first + 4 * kLane <= count; first += 4 * kLane) add_to_lanes(caps, first, sum + first);
  for (const Caps& at : caps) {
    for (std::size_t side = 0; side < at.ends.size(); ++side) {
      for (int i = first; i < count; ++i) sum[i] += at.ends[side][i] - at.starts[side][i];
    }
  }
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
    add_rows(&along_row_[here], &table_[here - stride_], width, &table_[here]);
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
  std::vector<Caps> caps;
  caps.reserve(static_cast<std::size_t>(shape_.reach - s));
  for (int away = s + 1; away <= shape_.reach; ++away) {
    const int w = shape_.half_width[static_cast<std::size_t>(away)];
    caps.push_back({{at(along_row_, away + 1, w + 1), at(along_row_, -away + 1, w + 1), at(numbers_, w + 1, away + 1),
                     at(numbers_, w + 1, -away + 1)},
                    {at(along_row_, away + 1, -w), at(along_row_, -away + 1, -w), at(numbers_, -w, away + 1),
                     at(numbers_, -w, -away + 1)}});
  }
  add_caps(caps, count, out);
}

std::uint32_t DiscSums::box(Cell first, int count) const {
  const int r = shape_.reach;
  const auto at = [&](int row, int col) { return table_[line(row) + static_cast<std::size_t>(col + r)]; };
  const int south = first.row + r + 1;
  const int east = first.col + count + r;
  return at(south, east) - at(south, first.col - r) - at(first.row - r, east) + at(first.row - r, first.col - r);
}

}  // namespace castplan
