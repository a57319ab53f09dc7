// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <vector>

#include "castplan/grid/groups.hpp"
#include "castplan/grid/lake.hpp"

namespace castplan {

struct Bodies {
  Groups body_of;
  std::vector<WaterBody> bodies;  ///< largest first; of equals the one with the first cell by row and column
};

/// Water bodies and their figures. values: metres, depths in water.
Bodies find_bodies(const Grid<Metres32>& values, const Grid<Cover>& cover);

}  // namespace castplan
