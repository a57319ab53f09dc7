// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/grid/grid.hpp"

namespace castplan {

/// Standard deviation of what differs from cell to cell without pattern, metres: the median size of the depths' answer
/// to a mask that is blind to planes and parabolas, over that of Gaussian noise. Noise that is alike over several cells
/// is not seen. Unknown cells, and cells beside them or beside land (depth 0), are left out; 0 when none is left.
/// Source of the mask: Immerkaer (1996), Comput. Vis. Image Underst. 64, 300-302, doi:10.1006/cviu.1996.0060; its mean
/// is replaced by the median, which edges do not move.
Metres cell_noise(const Grid<Metres32>& depth);

}  // namespace castplan
