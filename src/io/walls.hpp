// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "castplan/grid/grid.hpp"

namespace castplan {

/// Turns the contacts of bodies of water that are walled all round into shore (see shore.cpp, rule 3).
/// contacts: cells of no data that touch water; beyond: which of them lie outside the raster; shore: what is known of
/// each so far.
void take_walled_bodies(const Grid<Metres32>& depth, const std::vector<Cell>& contacts, const std::vector<bool>& beyond,
                        std::vector<bool>& shore);

}  // namespace castplan
