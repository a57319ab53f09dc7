// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <functional>

#include "castplan/grid/grid.hpp"

namespace castplan {

struct Components {
  Grid<std::int32_t> label;  ///< 0, 1, 2 ... in order of the first cell by row and column; -1 where the test fails
  int count{};
};

/// Groups of cells for which the test holds, joined by sides and corners. The test is called from several
/// threads at once.
Components components(const Frame& frame, const std::function<bool(Cell)>& test);

}  // namespace castplan
