// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/grid/grid.hpp"

namespace castplan {

/// Value at a place by bilinear interpolation between the four nearest cell centres. NaN where any cell with weight is
/// NaN, and outside the outermost centres. Exact where the field is linear.
float bilinear(const Grid<Metres32>& field, XY place);

}  // namespace castplan
