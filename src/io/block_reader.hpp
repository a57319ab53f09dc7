// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <gdal.h>

#include <string>

#include "castplan/grid/grid.hpp"

namespace castplan {

/// Fills a grid with a band's numbers, row by row from the file's first row. Blocks go from the file straight to the
/// grid, past GDAL's cache, with a handle of its own for each thread. where: "FILE, band N". Throws InputError.
void read_blocks(GDALRasterBandH band, Grid<Metres32>& out, const std::string& where);

}  // namespace castplan
