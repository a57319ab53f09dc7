// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/components.hpp"

#include <algorithm>

#include "castplan/grid/groups.hpp"
#include "castplan/grid/sweep.hpp"

namespace castplan {

Components components(const Frame& frame, const std::function<bool(Cell)>& test) {
  const Groups groups = groups_of(frame, [&](int row, int first, std::span<std::uint8_t> out) {
    for (std::uint8_t& mark : out) mark = test({row, first++}) ? 1 : 0;
  });
  Components result{.label = Grid<std::int32_t>(frame, -1), .count = groups.count()};
  sweep(frame.rows, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      const auto cells = result.label.row(row);
      for (const GroupRun& run : groups.row(row)) {
        std::fill(cells.begin() + run.first, cells.begin() + run.last, run.group);
      }
    }
  });
  return result;
}

}  // namespace castplan
