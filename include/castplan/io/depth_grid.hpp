// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <string>

#include "castplan/geo/projection.hpp"
#include "castplan/grid/grid.hpp"

namespace castplan {

/// The bytes of a GeoTIFF: band 1 depth in metres, positive down; band 2 its standard error in metres; -9999 where a
/// grid is NaN. Both grids on one frame of the projection's plane. metadata: items of the file, in order of their
/// names. Equal input gives equal bytes. Throws OutputError in GDAL's words.
std::string depth_grid_tiff(const Grid<Metres32>& depth, const Grid<Metres32>& error, const Projection& projection,
                            const std::map<std::string, std::string>& metadata);

}  // namespace castplan
