// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "castplan/geo/shape.hpp"
#include "castplan/grid/grid.hpp"
#include "castplan/grid/soundings.hpp"
#include "castplan/survey/error.hpp"

namespace castplan {

struct SurfaceOptions {
  /// 0: a bent plate (least squared curvature); towards 1: a stretched skin. It acts over the usual gap between data,
  /// not over the cell size, so that a finer grid shows the same lake. Source: Smith & Wessel (1990), below.
  double tension = 0.1;
  /// Standard error of one sounding: the larger, the less the surface bends to follow it.
  Metres sounding_error{0.1};
  /// Standard error of the depth along a contour as drawn, for the error band. How true the drawing is to the lake, the
  /// contours themselves cannot say.
  Metres contour_error{0.02};
  /// Water is at least this deep inside the shoreline.
  Metres least_depth{0.01};
};

/// A depth grid with what is known of its error.
struct Surface {
  Grid<Metres32> depth;  ///< metres, positive down; NaN where the cell's centre is outside the shoreline
  Grid<Metres32> error;  ///< standard error, metres; NaN as above
  CrossValidation check;
  double flat_share{};      ///< of water cells whose eight neighbours all equal them within 1 mm (0 to 1)
  Metres deepest;           ///< of the surface
  XY deepest_at;            ///< centre of the first such cell by row and column
  Metres deepest_datum;     ///< of soundings and contours used
  Metres sounding_rmse;     ///< surface less soundings, root mean square; 0 without soundings
  Metres contour_rmse;      ///< the same along the contours
  Metres interval;          ///< most frequent step between contour depths (the smallest of equals); 0 without contours
  std::size_t soundings{};  ///< used: finite, with a depth above 0, inside the shoreline and the frame
};

/// Depths from soundings, contours and the shoreline (either of the first two may be empty): a thin plate under
/// tension, (1 - T) D4 z - T D2 z = 0 away from data, which is pulled to soundings and contours where they lie (not to
/// cell centres) and to zero along the shoreline, islands included. Contours bound it: between two of them it keeps to
/// their depths but for a tenth of the step; inside a closed one with nothing further it may deepen or rise by less
/// than a whole step, or to just beyond the deepest (shallowest) sounding there, and tension is off, so that the hole
/// goes on. Steps are read from the contours' own depths. Soundings outside the shoreline or the frame, and those that
/// are not finite or not below the surface, are not used (clean_soundings says which); repeated ones count once. Throws
/// InputError when there is no shoreline, no cell in it, no sounding and no contour, or a contour whose depth is
/// negative or not finite.
/// Time and memory grow linearly with cells. The order of the data does not matter; the same bytes at any number of
/// threads.
/// Source: Smith & Wessel (1990), Geophysics 55, 293-305, doi:10.1190/1.1442837; Briggs (1974), Geophysics 39, 39-48.
Surface fit_surface(const Frame& frame, const Polygons& shoreline, std::span<const Sounding> soundings,
                    std::span<const DepthContour> contours, const SurfaceOptions& options = {});

/// Share of the known cells whose eight neighbours are known and all equal them within 1 mm (0 to 1).
double flat_share(const Grid<Metres32>& depth);

}  // namespace castplan
