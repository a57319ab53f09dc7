// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "castplan/geo/coordinate.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "castplan/io/raster.hpp"

namespace castplan {

enum class Severity { error, warning, note };  ///< error: `scout` cannot use the data as they are

/// Something to know of the data. mend: the lake file's line or the option that mends it; empty where nothing does.
struct Finding {
  Severity severity{};
  std::string code;
  std::string text;
  std::string mend;
};

/// The share of the water's area that is deeper than a step. Metres; the file's own unit where it is not known.
struct DeeperShare {
  double depth{};
  double share{};
};

struct RasterFacts {
  int cols{};
  int rows{};
  std::optional<Metres> cell_width, cell_height;  ///< on the ground at the centre
  double nodata_share{};                          ///< declared, undeclared and masked
  std::optional<DepthUnit> unit;
  std::string unit_evidence;
  std::optional<Sense> sense;
  std::string sense_evidence;
  std::optional<double> low, high;   ///< of the values in the file's unit, scale and offset applied, no data left out
  std::optional<double> undeclared;  ///< a filler that the file does not declare as no data
  std::size_t levels{};              ///< different values in the water
  double flat_share{};               ///< of the water: cells equal to all 8 neighbours
  std::vector<DeeperShare> hypsography;  ///< empty where the surface is not known
};

struct FieldFacts {
  std::string name;
  std::string type;                 ///< GDAL's name
  std::optional<double> low, high;  ///< where it holds numbers, as numbers or as text
  std::size_t values{};             ///< records with a number
  std::size_t levels{};             ///< different ones
};

struct LayerFacts {
  std::string name;
  std::string geometry;  ///< GDAL's name
  long long records{};
  std::vector<FieldFacts> fields;
  std::string depth_field;  ///< the field that looks most like depths; empty when none does
};

/// What a file says of itself.
struct FileFacts {
  std::string name;  ///< without its folder
  std::string path;
  std::string key;     ///< where a lake file names it, such as "depth.raster"
  std::string kind;    ///< lake-file, raster, vector, table
  std::string format;  ///< GDAL's name
  std::string crs;     ///< its name; empty where neither the file nor the options say
  bool crs_given{};    ///< by an option or the lake file, not by the file
  std::optional<Metres> crs_accuracy;
  std::optional<LonLat> centre, south_west, north_east;
  std::optional<RasterFacts> raster;
  std::vector<LayerFacts> layers;
};

struct Inspection {
  std::vector<FileFacts> files;
  std::vector<Finding> findings;  ///< errors first, else in the order in which they were met
};

/// What the options say of a bare file.
struct InspectOptions {
  std::string path;
  std::optional<DepthUnit> unit;
  std::optional<Sense> sense;
  std::optional<Metres> surface;
  std::string crs;
  std::string shoreline;
};

/// Looks at a raster, a vector layer, a table or a lake file with all that it names. Opens for reading only and writes
/// nothing. Throws InputError when nothing could be read.
Inspection inspect(const InspectOptions& options);

/// "46.0123 N, 89.6543 W".
std::string place_text(LonLat place);
/// depth, height, elevation.
std::string sense_text(Sense sense);

}  // namespace castplan
