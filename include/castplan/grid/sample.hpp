// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/grid/grid.hpp"

namespace castplan {

/// Value at a place by bilinear interpolation between the four nearest cell centres. NaN where any cell with weight is
/// NaN, and outside the outermost centres. Exact where the field is linear.
float bilinear(const Grid<Metres32>& field, XY place);

/// Rise of the field per metre east and north, by differences over one cell to each side. NaN where any of the four
/// places is unknown. Exact where the field is linear.
XY gradient_at(const Grid<Metres32>& field, XY place);

}  // namespace castplan
