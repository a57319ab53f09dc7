// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "castplan/geo/projection.hpp"
#include "castplan/geo/shape.hpp"
#include "castplan/grid/grid.hpp"
#include "castplan/grid/groups.hpp"

namespace castplan {

/// What a cell is. Unknown is not land: a map edge is no shore, and nothing is concluded about what lies there.
enum class Cover : std::uint8_t { unknown, land, water };

/// One water body: its cells are joined side by side or corner to corner.
struct WaterBody {
  SquareMetres area;
  CubicMetres volume;
  Metres max_depth;
  XY deepest;
};

/// A lake on its working grid: the floor as depths below today's surface.
struct Lake {
  Projection projection = Projection::geographic();
  /// Metres below the surface: positive in water, 0 on land cells that touch water (eight neighbours), else NaN.
  Grid<Metres32> depth;
  Grid<Cover> cover;
  /// Number of the water body of each cell, from 0 in `bodies`; -1 outside water.
  Groups body_of;
  std::vector<WaterBody> bodies;  ///< largest first
  Polygons outline;               ///< the zero line at sub-cell position, or the shoreline file's
  /// Length of all of it, islands included; of a traced line without the raster's steps (vertices in the middle of
  /// three), and only where the shore is known: it stops at a cut, where `outline` is closed along the cut.
  Metres shoreline;
  double shoreline_development{};  ///< outer line of the largest body: P / (2 sqrt(pi A)); 1 for a circle
  SquareMetres area;
  CubicMetres volume;
  Metres max_depth;
  Metres mean_depth;
  Metres depth_error{Metres(0.3)};  ///< standard error of the depths
  bool depth_error_known = false;   ///< false: the default of the line above
  /// Standard error cell by cell, on the depths' frame, where a survey tells it; empty: depth_error holds everywhere.
  Grid<Metres32> error;
  double cut_share{};  ///< share of the water's edge that is unknown, not shore (0 to 1)
};

/// Builds a lake from values on a frame. values: metres, positive below the surface; zero or less is land (its height
/// above the water, negative); -infinity is land of unknown height; NaN is unknown. outline: the shoreline where a
/// file gave one, else empty and the zero line of the values is traced. Throws InputError when there is no water.
Lake make_lake(Projection projection, Grid<Metres32> values, Polygons outline = {});

/// Depth at a place by bilinear interpolation between cell centres, metres; land counts as 0; NaN where any of the
/// four cells with weight is unknown or land not next to water, and outside the grid.
float depth_at(const Lake& lake, XY place);

/// Standard error of the depth at a place: the cell's own where a survey tells it, else the lake's.
Metres error_at(const Lake& lake, XY place);

/// The middle of the lake's frame.
LonLat middle_of(const Lake& lake);

/// What the place is; unknown outside the grid.
Cover cover_at(const Grid<Cover>& cover, XY place);
inline Cover cover_at(const Lake& lake, XY place) { return cover_at(lake.cover, place); }

}  // namespace castplan
