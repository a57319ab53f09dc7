// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "features/flood.hpp"

namespace castplan {

/// Which areas belong together: those with cells no further apart than a reach, and what such areas join. Distances are
/// between centres of cells, in cells. Returns the numbers of the areas of each group, in order, groups by their first
/// area; the same groups however the map lies.
std::vector<std::vector<int>> near_together(const std::vector<std::vector<Run>>& areas, double reach);

}  // namespace castplan
