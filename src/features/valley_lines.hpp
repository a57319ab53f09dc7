// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/shape.hpp"
#include "castplan/grid/grid.hpp"

namespace castplan {

/// Lines along which a depth field is deepest across them, at sub-cell position: where the first derivative along the
/// direction of greatest curvature is zero, that curvature is at least `least` (1/m, depth falling away to both sides)
/// and the other no more than 0.7 of it, so that round holes have none. Lines end where they meet another. Longest
/// first, ties by place; each begins at its northern end.
/// Source: C. Steger (1998), An unbiased detector of curvilinear structures, IEEE PAMI 20(2), 113-125,
/// doi:10.1109/34.659930.
Lines valley_lines(const Grid<Metres32>& depth, double least);

}  // namespace castplan
