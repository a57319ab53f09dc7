// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <vector>

#include "castplan/geo/shape.hpp"
#include "castplan/grid/grid.hpp"

namespace castplan {

/// A field that is worked out a row at a time, where keeping it whole would cost more than finding it.
struct FieldRows {
  Frame frame;
  /// The values of a row: in the room, which has a place for each column, or where they stand already. Called from
  /// several threads at once, for some rows more than once.
  std::function<const Metres32*(int row, std::vector<Metres32>& room)> row;

  static FieldRows of(const Grid<Metres32>& field);
};

/// Lines of equal value between cell centres, by marching squares with linear interpolation. Larger values lie on the
/// left of each line. Lines that meet no NaN and no edge of the grid are closed (first point repeated). Squares with a
/// NaN corner are left out, so lines end there. A cell equal to the level counts as above it; in a square whose
/// diagonals disagree the mean of the four corners decides, so that turning or mirroring the grid changes nothing.
/// Next to a corner at infinity the line runs half-way. No point is repeated, and closed lines without area (about
/// cells that equal the level, out and back) are left out. Order: by the northernmost, then westernmost start. Exact
/// where the field is linear along cell edges.
Lines isolines(const Grid<Metres32>& field, float level);
Lines isolines(const FieldRows& field, float level);

/// Closed lines of the level sorted into polygons with holes: the area where the field is at or above the level.
/// NaN and all outside the grid count as below; the line runs half a cell from the last known centre there. Vertices
/// keep a thousandth of a cell from cell centres, so that the polygons are valid (OGC) even where cells equal the
/// level. Order of polygons, and of holes in one: as the lines above.
Polygons area_above(const Grid<Metres32>& field, float level);
Polygons area_above(const FieldRows& field, float level);

}  // namespace castplan
