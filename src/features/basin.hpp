// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <vector>

#include "castplan/geo/shape.hpp"
#include "castplan/grid/lake.hpp"
#include "features/flood.hpp"

namespace castplan {

/// Pools and humps are the same thing upside down: an area closed by a level of a field (depth for a pool, height for
/// a hump, which is depth with its sign turned).
struct Basin {
  std::vector<Run> runs;
  Polygons outline;  ///< the level's line around these cells alone, at sub-cell position
};

/// The area joined to a cell in which the heights lie above the level.
Basin basin_above(const Heights& heights, std::size_t summit, float level);

/// Whether any known depth of the lake may lie beside the unknown or at the edge of the map. Where none does, no area
/// of it has to be looked through for that.
bool may_touch_unknown(const Lake& lake);

/// The greatest height among the cells that touch the unknown or the edge of the map; nothing where none does. What
/// lies beyond could be anything, so the area is only certain above that value.
std::optional<float> highest_unknown_contact(const Heights& heights, const Lake& lake, const std::vector<Run>& runs);

}  // namespace castplan
