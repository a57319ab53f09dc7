// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "castplan/geo/shape.hpp"
#include "castplan/grid/grid.hpp"

namespace castplan {

/// Calls work for each run of cells of a row whose centres lie inside the rings (even-odd rule, so that holes are
/// rings among others; a vertex on the line of centres belongs to the edge above it): row, first column, one past the
/// last column; from north to south, west to east. Time: linear in the cells found and n log n in the rows crossed.
void runs_inside(const std::vector<Ring>& rings, const Frame& frame, const std::function<void(int, int, int)>& work);

/// 1 where the cell's centre lies inside the polygons, else 0.
Grid<std::uint8_t> cells_inside(const Polygons& polygons, const Frame& frame);

/// Outer rings and holes.
std::vector<Ring> rings_of(const Polygons& polygons);

}  // namespace castplan
