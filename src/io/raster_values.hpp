// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <gdal.h>

#include <limits>
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

/// What the known values of a grid are: how many, on which side of 0, and from where to where.
struct ValueTally {
  long long known = 0;
  long long positive = 0;
  long long negative = 0;
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
  double lowest = std::numeric_limits<double>::infinity();  ///< of those that are not 0
  double highest = -std::numeric_limits<double>::infinity();

  /// Of those that are not 0; 0 without any.
  [[nodiscard]] double negative_share() const {
    const long long nonzero = positive + negative;
    return nonzero == 0 ? 0.0 : static_cast<double>(negative) / static_cast<double>(nonzero);
  }
};
ValueTally tally(const Grid<Metres32>& values);

/// Metres for one unit of the band: from the options, else from the file. InputError when neither says.
double metres_per_value(GDALRasterBandH band, const RasterOptions& options, const std::string& where,
                        std::vector<std::string>& notes);

/// Turns stored numbers into metres below today's surface, in place. InputError when the sense contradicts them, when
/// there is nothing but no data, or no water.
void to_depths(Grid<Metres32>& values, GDALRasterBandH band, double metres_per, const RasterOptions& options,
               const std::string& where, std::vector<std::string>& notes);

}  // namespace castplan
