// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <vector>

#include "castplan/geo/shape.hpp"
#include "castplan/grid/grid.hpp"
#include "castplan/grid/soundings.hpp"
#include "castplan/survey/surface.hpp"

namespace castplan::survey {

/// Checked data on a frame.
struct Sources {
  Grid<std::uint8_t> water;  ///< 1 in cells whose centre is inside the shoreline
  Lines shore;               ///< its rings
  std::vector<Sounding> soundings;
  std::vector<DepthContour> contours;
};

/// Cells that hold a datum: sounding, contour, or water beside land.
Grid<std::uint8_t> cells_with_data(const Sources& sources);
/// Distance from each cell's centre to that of the nearest with a datum.
Grid<Metres32> distance_to_data(const Sources& sources);
/// A quantile (0 to 1) of that distance over water cells, by counting in tenths of a cell; at least half a cell.
Metres distance_quantile(const Sources& sources, const Grid<Metres32>& distance, double share);

/// The plate's depths, which go on two cells beyond the shore (as negative values where the floor rises), so that they
/// can be read between cell centres up to it; NaN further out.
Grid<Metres32> fit_plate(const Sources& sources, Metres gap, const SurfaceOptions& options);

}  // namespace castplan::survey
