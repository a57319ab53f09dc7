// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>

#include "castplan/geo/shape.hpp"
#include "castplan/grid/grid.hpp"

namespace castplan::survey {

/// 1 where the cell's centre lies inside the polygons (even-odd rule, holes are outside), else 0. A row at a time:
/// linear in cells and in vertices times the rows that they span.
Grid<std::uint8_t> cells_inside(const Frame& frame, const Polygons& polygons);

}  // namespace castplan::survey
