// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>

#include "castplan/grid/grid.hpp"

namespace castplan {

/// Value at a place by bilinear interpolation between the four nearest cell centres. NaN where any cell with weight is
/// NaN, and outside the outermost centres. Exact where the field is linear.
float bilinear(const Grid<Metres32>& field, XY place);
/// The same of a field that is not kept, but worked out cell by cell.
float bilinear(const Frame& frame, XY place, const std::function<float(Cell)>& value);

enum class Cubic {
  through,   ///< passes through the cells, exact where the floor is a parabola; Keys (1981), with a = -1/2
  smoothing  ///< the cubic B-spline with the cells as its coefficients: levels out a stair
};

/// Depth at a fractional column and row (0, 0 is the centre of the first cell) by cubic convolution over sixteen cells.
/// NaN where one of them is not under water: the floor bends at the shore. Source: Keys (1981), IEEE Trans. Acoust.
/// Speech Signal Process. 29, 1153-1160, doi:10.1109/TASSP.1981.1163711.
double bicubic_at(const Grid<Metres32>& depth, XY pixel, Cubic kind = Cubic::through);

/// Depth at a place, by `bicubic_at` where there is water all about, else `bilinear`.
float smooth_depth(const Grid<Metres32>& depth, XY place);

/// Rise of the field per metre east and north, by differences over one cell to each side. NaN where any of the four
/// places is unknown. Exact where the field is linear.
XY gradient_at(const Grid<Metres32>& field, XY place);

}  // namespace castplan
