// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "grid/cover_rows.hpp"

#include <algorithm>
#include <limits>

#include "castplan/grid/hot.hpp"

namespace castplan {
namespace {

int is(Cover cover, Cover which) { return static_cast<int>(cover == which); }

CASTPLAN_HOT void count_sides(const Cover* above, const Cover* here, const Cover* below, int count, int* all,
                              int* unknown) {
  int water_sides = 0;
  int water_cells = 0;
  int unknown_sides = 0;
  for (int i = 0; i < count; ++i) {
    const int water = is(here[i], Cover::water);
    water_cells += water;
    water_sides += water & is(above[i], Cover::water);
    water_sides += water & is(below[i], Cover::water);
    water_sides += water & is(here[i - 1], Cover::water);
    water_sides += water & is(here[i + 1], Cover::water);
    unknown_sides += water & is(above[i], Cover::unknown);
    unknown_sides += water & is(below[i], Cover::unknown);
    unknown_sides += water & is(here[i - 1], Cover::unknown);
    unknown_sides += water & is(here[i + 1], Cover::unknown);
  }
  *all = 4 * water_cells - water_sides;
  *unknown = unknown_sides;
}

CASTPLAN_HOT void keep_row(const Cover* above, const Cover* here, const Cover* below, int count, Metres32* values) {
  for (int i = 0; i < count; ++i) {
    const int near = is(above[i - 1], Cover::water) | is(above[i], Cover::water) | is(above[i + 1], Cover::water) |
                     is(here[i - 1], Cover::water) | is(here[i + 1], Cover::water) | is(below[i - 1], Cover::water) |
                     is(below[i], Cover::water) | is(below[i + 1], Cover::water);
    const int shore = is(here[i], Cover::land) & near;
    const float outside = shore != 0 ? 0.0F : std::numeric_limits<float>::quiet_NaN();
    const float own = values[i].value();
    values[i] = Metres32(here[i] == Cover::water ? own : outside);
  }
}

}  // namespace

CoverRows::CoverRows(const Grid<Cover>& cover) : cover_(cover) {
  for (std::vector<Cover>& row : rows_) row.assign(static_cast<std::size_t>(cover.cols()) + 2, Cover::unknown);
}

void CoverRows::read(int row) {
  std::vector<Cover>& out = rows_[static_cast<std::size_t>(row + 3) % 3];
  if (row < 0 || row >= cover_.rows()) {
    std::fill(out.begin(), out.end(), Cover::unknown);
  } else {
    std::copy(cover_.row(row).begin(), cover_.row(row).end(), out.begin() + 1);
  }
}

void CoverRows::move_to(int row) {
  if (row != row_ + 1) {
    read(row - 1);
    read(row);
  }
  read(row + 1);
  row_ = row;
}

CoverRows::Sides CoverRows::sides() const {
  int all = 0;
  int unknown = 0;
  count_sides(at(row_ - 1), at(row_), at(row_ + 1), cover_.cols(), &all, &unknown);
  return {all, unknown};
}

void CoverRows::keep_depths(std::span<Metres32> values) const {
  keep_row(at(row_ - 1), at(row_), at(row_ + 1), cover_.cols(), values.data());
}

}  // namespace castplan
