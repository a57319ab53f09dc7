// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <vector>

#include "castplan/grid/lake.hpp"

namespace castplan {

struct Bodies {
  Grid<std::int32_t> body_of;     ///< -1 outside water
  std::vector<WaterBody> bodies;  ///< largest first; of equals the one with the first cell by row and column
};

/// Water bodies and their figures. values: metres, depths in water.
Bodies find_bodies(const Grid<Metres32>& values, const Grid<Cover>& cover);

}  // namespace castplan
