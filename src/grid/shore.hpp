// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/grid/isoline.hpp"
#include "castplan/grid/lake.hpp"

namespace castplan {

/// A field whose zero line is the shore: depth in water, below zero on land, NaN where unknown. A land cell beside
/// water holds its own height where that is known. Else the floor is carried on in a straight line from the two water
/// cells in front of it; where it does not surface within a cell and a quarter (a wall, or one water cell only), the
/// shore is the edge between the two cells. The line keeps 0.05 cell from the centres of water cells.
/// values: as make_lake takes them.
/// Both must outlive the answer.
FieldRows shore_rows(const Grid<Metres32>& values, const Grid<Cover>& cover);
Grid<Metres32> shore_field(const Grid<Metres32>& values, const Grid<Cover>& cover);

struct Shore {
  Polygons outline;
  Metres length;
};

/// The zero line of a shore field: as polygons (closed along the unknown), and its length where it is known.
Shore trace_shore(const FieldRows& field);

/// Length of a traced line without the steps of the raster. Each vertex is first put in the middle of itself and its
/// two neighbours: a line along cell edges is some 5 % too long otherwise, a line at sub-cell position hardly changes
/// (circles of 8 cells' radius and more: within 2 %, and within 0.1 %). Rings of under 16 vertices, which this would
/// shrink, and the ends of open lines stay. Unlike thinning, it answers to small changes of depth with small changes.
Metres smooth_length(const Line& line);

}  // namespace castplan
