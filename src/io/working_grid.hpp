// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "castplan/io/raster.hpp"
#include "io/pixel_map.hpp"

namespace castplan {

/// The frame of the file's own cells, north up; only true where they are square and run along the axes.
Frame own_frame(const PixelMap& map, const Projection& projection, int rows, int cols);

/// Brings depths from the file's cells to the working grid, by the rule that read_depth_raster states.
/// depth: in the file's own order of rows and columns, on its own frame.
DepthRaster on_working_grid(Grid<Metres32> depth, const PixelMap& map, const Projection& projection,
                            const std::string& shown);

/// Depths at the cells of a target frame, from a source in the file's own order. A cell is known when the source cell
/// that holds its centre is, so no data neither grows nor shrinks; its value is bilinear over the known ones of the
/// four source cells around, so no data does not bleed either. Where the nearest source cell is exactly 0 (land whose
/// height nobody stated) the result is never water. Places are exact at every 16th cell and linear between: off by
/// less than cell / (25 000 m) of a cell.
Grid<Metres32> warped(const Grid<Metres32>& source, const PixelMap& map, const Projection& from, const Projection& to,
                      const Frame& frame);

}  // namespace castplan
