// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "castplan/grid/components.hpp"
#include "features/floor.hpp"

namespace castplan {

/// A part of the floor's frame around one flat.
struct Window {
  Frame frame;
  Cell first;  ///< of the frame, as a cell of the floor

  [[nodiscard]] Cell inner(Cell at) const { return {at.row - first.row, at.col - first.col}; }
  [[nodiscard]] Cell outer(Cell at) const { return {at.row + first.row, at.col + first.col}; }
};

/// One flat on its window: 1 where it lies.
struct Shelf {
  Window window;
  Grid<Metres32> part;
};

/// Grows a group of blocks back to its true edge, from its rim, block by block as long as the floor lies on their
/// plane.
Shelf grown(const std::vector<Cell>& cells, const std::vector<Cell>& rim, const Floor& floor, const Components& groups);

}  // namespace castplan
