// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>

#include "castplan/grid/grid.hpp"

namespace castplan {

/// Slope of the lake floor, by Horn's weighted differences over the eight neighbours.
/// depth: metres, positive downwards; NaN where unknown.
/// Returns degrees from horizontal, [0, 90), on the same frame.
/// NaN in border cells and where any of the nine cells is NaN. Exact on a plane.
/// Source: Horn (1981), Proc. IEEE 69(1), 14-47, doi:10.1109/PROC.1981.11918.
Grid<Degrees32> slope(const Grid<Metres32>& depth);

/// Direction in which the floor falls away: degrees clockwise from grid north, [0, 360); NaN where flat or unknown.
/// Same window and source as `slope`; the sign is that of depth, positive downwards.
Grid<Degrees32> aspect(const Grid<Metres32>& depth);

/// The same for one row: three rows in, one row out, all of equal length.
void slope_row(std::span<const Metres32> above, std::span<const Metres32> here, std::span<const Metres32> below,
               Metres cell, std::span<Degrees32> out);
void aspect_row(std::span<const Metres32> above, std::span<const Metres32> here, std::span<const Metres32> below,
                std::span<Degrees32> out);

}  // namespace castplan
