// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <gdal.h>

#include <string>
#include <vector>

#include "castplan/io/raster.hpp"

namespace castplan {

/// A value that stands for "no data" without being declared, and how many cells hold it.
struct Filler {
  float value;  ///< infinite for all infinities, 1e20 for everything beyond it
  long long cells;
};

/// The band's numbers as stored, row by row from the file's first row. No data, NaN, infinities and undeclared fillers
/// are NaN from here on. frame: rows and columns of the file.
/// where: "FILE, band N" for messages. cleared: takes the undeclared fillers instead of the notes. Throws InputError
/// when the file cannot be read to its end.
Grid<Metres32> raw_values(GDALRasterBandH band, const Frame& frame, const RasterOptions& options,
                          const std::string& where, std::vector<std::string>& notes,
                          std::vector<Filler>* cleared = nullptr);

/// Metres for one unit of the band: from the options, else from the file. InputError when neither says.
double metres_per_value(GDALRasterBandH band, const RasterOptions& options, const std::string& where,
                        std::vector<std::string>& notes);

/// Turns stored numbers into metres below today's surface, in place. InputError when the sense contradicts them, when
/// there is nothing but no data, or no water.
void to_depths(Grid<Metres32>& values, GDALRasterBandH band, double metres_per, const RasterOptions& options,
               const std::string& where, std::vector<std::string>& notes);

}  // namespace castplan
