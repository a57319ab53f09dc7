// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/grid/lake.hpp"

namespace castplan {

/// How many cells make the side of a larger one: the largest odd number that is no wider than most; at least 1.
int coarse_step(Metres cell, Metres most);

/// The frame of larger cells about the same middle as the frame's own, so that turning or mirroring the lake turns or
/// mirrors the larger cells too. It may reach beyond the frame on each side. step: odd.
Frame coarse_frame(const Frame& frame, int step);

/// First row (or column) of cells in a row of larger cells, counted on the cells' own frame; may lie before it.
/// count, coarse_count: how many there are of either.
int first_of(int number, int step, int count, int coarse_count);

/// Mean of the known depths in each larger cell, land counting as 0; NaN where fewer than half of its cells are known.
Grid<Metres32> coarse_depth(const Lake& lake, int step);

/// Water where any cell of the larger one is water, so that a channel of one cell still joins two basins; else land
/// where any is land, else unknown.
Grid<Cover> coarse_cover(const Lake& lake, int step);

}  // namespace castplan
