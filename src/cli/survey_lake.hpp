// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <string_view>
#include <vector>

#include "castplan/io/lake_file.hpp"
#include "castplan/io/load.hpp"
#include "castplan/survey/clean.hpp"
#include "castplan/survey/surface.hpp"

namespace castplan {

/// A depth surface made from what a lake file names instead of a raster, with all that a reader should know of it.
struct SurveyedLake {
  Projection projection = Projection::geographic();  ///< transverse Mercator on the lake's centre, to 0.01 degree
  Polygons shoreline;
  Cleaned cleaned;
  std::vector<DepthSource> sources;  ///< soundings first, then contours, in the order of the lake file
  Surface surface;
  std::vector<std::string> notes;
};

/// Reads, cleans and grids. Depths are below the surveyed surface. The shoreline is the lake file's own, else the
/// closed contours of depth 0. Throws InputError.
SurveyedLake survey_lake(const LakeFile& file, const std::function<void(std::string_view)>& progress);

/// The lake of a file, whatever its depths come from: its raster, or a surface that is made first.
LoadedLake lake_of(const LakeFile& file, const std::function<void(std::string_view)>& progress);

/// Side of a cell where none is asked for: about 100 000 cells of water, in steps of 1, 2, 5, 10, 20, 50 m. Design
/// choice.
Metres usual_cell(SquareMetres water);

}  // namespace castplan
