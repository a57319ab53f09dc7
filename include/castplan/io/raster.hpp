// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "castplan/geo/projection.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "castplan/geo/shape.hpp"
#include "castplan/grid/grid.hpp"

namespace castplan {

enum class Sense { depth, height, elevation };

/// How to read a depth raster, where the file does not say.
struct RasterOptions {
  std::string path{};
  std::string shown{};  ///< the name used in messages; path when empty
  int band = 1;
  std::optional<double> nodata{};   ///< only where the file declares none
  std::optional<DepthUnit> unit{};  ///< else the band's own unit
  Sense sense = Sense::depth;
  std::optional<Metres> surface{};         ///< elevation of the water today; needed with Sense::elevation
  std::optional<Metres> survey_surface{};  ///< elevation when surveyed, where it differs
  Metres level_offset{};                   ///< today's surface less the survey's, for depth and height
  std::string crs{};                       ///< only used where the file states none
};

/// Metres below today's surface on the working grid: positive is water, zero or less is land, NaN is unknown or no
/// data.
struct DepthRaster {
  Grid<Metres32> depth;
  Projection projection = Projection::geographic();
  bool resampled = false;          ///< warped; false: the input's own cells
  Polygons extent;                 ///< what the input covers, where it was warped; else empty: the grid itself
  std::string why_resampled;       ///< for people
  std::vector<std::string> notes;  ///< what a person should know (a stated CRS was kept, a default used)
};

/// Reads any raster that GDAL reads. The input's own grid is kept when it is conformal, within 0.2 % of true scale at
/// the lake, north-up (rows may run either way) and square to 1e-6; anything else is warped, bilinearly, to a
/// transverse Mercator on the centre of the water rounded to 0.01 degree, scale 1, with square cells whose area is
/// that of the input's cell on the ground. No-data, NaN, infinities and the usual undeclared fillers (-9999, -32768,
/// 1e6, -3.4e38 and the like, far outside the rest) become NaN. Scale and offset of the band are applied.
/// Throws InputError: file, what was found, what was expected, what would mend it.
DepthRaster read_depth_raster(const RasterOptions& options);

/// No data inside a raster is not always land. A cell without data next to water is taken as shore (-infinity) when
/// the depths beside it are shallow or rise towards it; where the water is cut off it stays NaN. Water that meets the
/// edge of the raster is cut off there, however shallow it is. risen: how far today's surface stands above the
/// survey's, so that "shallow" is judged as surveyed. extent: of the raster, where it was warped; else empty: the grid
/// itself.
void tell_shore_from_cut(Grid<Metres32>& depth, Metres risen = Metres(0), const Polygons& extent = {});

/// Clips by a shoreline: land outside it (-infinity), unknown inside it where there is no depth. Returns those of its
/// polygons that hold water: a layer of many lakes is cut down to the ones that were surveyed.
Polygons clip_to_shoreline(Grid<Metres32>& depth, const Polygons& shoreline);

}  // namespace castplan
