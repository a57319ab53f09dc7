// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>

#include "castplan/geo/shape.hpp"
#include "castplan/grid/frame.hpp"

namespace castplan {

/// Calls work for each run of cells of a row whose centres lie inside the rings (even-odd rule, so that holes are
/// rings among others): row, first column, one past the last column; from north to south, west to east.
void cells_inside(const std::vector<Ring>& rings, const Frame& frame, const std::function<void(int, int, int)>& work);

/// Outer rings and holes.
std::vector<Ring> rings_of(const Polygons& polygons);

}  // namespace castplan
