// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "castplan/grid/groups.hpp"
#include "castplan/grid/lake.hpp"

namespace castplan {

/// Distance to the nearest land, worked out where it is asked for and exact up to a limit: only land that near can
/// matter, so that the rest of the lake need not be looked at.
class FromLand {
 public:
  FromLand(const Lake& lake, Metres limit);

  /// Of the cells of a window, which may reach over the map's edge: exact up to the limit, beyond it at least the
  /// limit, perhaps infinite; infinite off the map.
  [[nodiscard]] Grid<Metres32> around(Cell corner, int rows, int cols) const;
  /// The limit in cells, rounded up.
  [[nodiscard]] int reach() const { return reach_; }

 private:
  const Lake* lake_;
  int reach_;
};

/// Groups of those cells of the groups taken that lie further from land than a distance within the limit.
Groups cells_beyond(const Groups& groups, const std::vector<bool>& taken, const FromLand& from_land, Metres distance);

}  // namespace castplan
