// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/grid/lake.hpp"

namespace castplan {

/// The lake's floor for forms that are tens of metres wide: means over blocks of cells, and the same smoothed. The
/// blocks lie evenly about the middle of the map, so that turning or mirroring the lake changes nothing, and there is a
/// rim of unknown blocks all round.
struct Floor {
  Grid<Metres32> level;   ///< mean depth of each block's water; NaN where less than half of it is water
  Grid<Metres32> smooth;  ///< Gaussian mean of `level` over water
  Metres scale;           ///< sigma of that
};

/// Blocks of the greatest odd number of cells that is no wider than 6 m, at least one cell; the sigma given, or 1.25
/// blocks.
Floor floor_of(const Lake& lake, Metres scale);
/// The same blocks, smoothed with another sigma.
Floor smoothed_at(Grid<Metres32> level, Metres scale);

/// What the smoothed field was at a cell before all smoothing, blocks included, to first order: less half the variance
/// of the smoothing times the Laplacian. Right within 1 % of its relief for a Gaussian bump of 20 m smoothed at 8 m,
/// and three times steadier under noise than the cell itself. The smoothed depth where a side of the cell is unknown.
Metres unsmoothed_at(const Floor& floor, Cell at, Metres cell);

/// What the smoothed floor still shows at a place of a rise or hole from a depth to another: a share, 1 for all of it;
/// 1 too where there is no floor to look at. Of a Gaussian bump as wide as the smoothing that is half.
double seen_wide(const Floor* floor, XY place, Metres from, Metres to);

/// The sigma that flats and channels look at.
inline constexpr Metres kFloorScale(12);

/// Rise of a field per metre east and north at a cell, by differences to the sides that are known; 0 where neither is.
XY rise_at(const Grid<Metres32>& field, Cell at);

}  // namespace castplan
