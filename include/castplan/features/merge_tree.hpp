// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <vector>

#include "castplan/grid/grid.hpp"

namespace castplan {

/// One summit of a field: where it stands and where it joins a higher one.
struct Summit {
  std::size_t cell;  ///< index of its highest cell
  float height;
  int parent = -1;  ///< the higher summit that it joins at its pass; -1 for the highest of a connected area
  float pass = 0;   ///< height of the pass (only with a parent)
  std::size_t pass_cell = 0;

  [[nodiscard]] float prominence() const { return height - pass; }
};

/// All summits of a field and the passes that join them: the highest path between two summits runs over the passes of
/// the tree. Cells are joined by sides and corners; NaN cells are not part of the field. Equal heights are told apart
/// by the order of cells, so that a flat top gives one summit with parents of prominence 0 beside it.
/// Returns summits in the order of their cells. Time: linear in cells, and n log n in cells on the borders between
/// summits. Method: steepest ascent labels, then Kruskal's algorithm on the passes with the elder rule of persistence
/// (Edelsbrunner & Harer 2010, Computational Topology, VII.1).
std::vector<Summit> merge_tree(const Grid<Metres32>& field);

/// Indices of the cells joined to a cell (sides and corners) over cells that lie above the level, that cell included;
/// empty when it is not above the level. In the order of a flood by runs of rows, the same on every machine.
std::vector<std::size_t> cells_above(const Grid<Metres32>& field, std::size_t from, float level);

}  // namespace castplan
