// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <string>

#include "castplan/grid/lake.hpp"
#include "cli/survey_lake.hpp"

namespace castplan {

/// What a gridded lake adds up to, by the same sums as a plan's figures.
struct GridFigures {
  SquareMetres area;
  CubicMetres volume;
  Metres mean_depth, max_depth;
};
GridFigures figures_of(const SurveyedLake& made);

/// The report on stdout: what was read and how it is known, what was left out and why, the surface and its error.
std::string grid_report(const SurveyedLake& made, const GridFigures& figures, const std::string& out,
                        const std::string& rejected);
/// One JSON object, with a line end.
std::string grid_json(const SurveyedLake& made, const GridFigures& figures);
/// Items of the GeoTIFF.
std::map<std::string, std::string> grid_metadata(const LakeFile& file, const SurveyedLake& made,
                                                 const GridFigures& figures);
/// Every sounding that is not used: lon, lat, depth_m, file, number, reason.
std::string rejected_csv(const SurveyedLake& made);

}  // namespace castplan
