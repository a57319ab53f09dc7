// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "castplan/features/detect.hpp"
#include "castplan/grid/components.hpp"
#include "features/floor.hpp"

namespace castplan {

/// Groups of blocks where the floor is no steeper than a flat may be and a disc fits in (a morphological opening): as
/// wide as the narrowest flat, less what smoothing takes from its edges.
Components wide_floor(const Floor& floor, const DetectOptions& options);

/// The blocks of each group, by row and column.
std::vector<std::vector<Cell>> cells_by_group(const Components& groups);

/// The blocks of a group that touch others. The outermost blocks of the floor are unknown, so that all blocks around a
/// group's are on it.
std::vector<Cell> rim_cells(const std::vector<Cell>& cells, const Components& groups);

}  // namespace castplan
