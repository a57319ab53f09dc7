// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "castplan/grid/lake.hpp"
#include "castplan/grid/mapped.hpp"
#include "castplan/grid/observations.hpp"
#include "castplan/io/lake_file.hpp"

namespace castplan {

/// An input by file name (never by path) and content.
struct InputFile {
  std::string name;
  std::string sha256;
  bool operator==(const InputFile&) const = default;
};

/// Everything that a lake file points to, read and on one working grid.
struct LoadedLake {
  Lake lake;
  std::vector<MappedStructure> structure;
  std::vector<MappedClosure> closures;
  std::vector<MappedLaunch> launches;
  std::vector<PlantSample> plants;            ///< depths moved to today's level
  std::vector<DatedTemperature> water_temps;  ///< by date, ascending
  std::vector<DatedTemperature> air_temps;    ///< daily means, by date, ascending
  std::vector<ProfileReading> profile;        ///< by date, then depth, ascending; each depth once a date
  std::vector<WindReading> wind;              ///< by time, ascending; each time once
  std::vector<InputFile> inputs;              ///< by name, each file once, side files (.shx, .dbf, .prj) too
  std::vector<std::string> notes;             ///< what a person should know of how the data were read
  std::vector<std::string> layers_given;      ///< structure kinds that were assessed
  std::string surface_text;                   ///< "depths are below today's surface, 312.4 m" and the like
};

/// A depth grid made from the soundings and contours that a lake file names.
struct GriddedDepth {
  Grid<Metres32> depth;  ///< metres below the surveyed surface, positive down; NaN outside the shoreline
  Projection projection = Projection::geographic();
  Polygons shoreline{};            ///< within which it was made; empty: the lake file's [shoreline]
  std::optional<Metres> error{};   ///< standard error found; the lake file's own beats it
  Grid<Metres32> error_of_cell{};  ///< on the frame of depth, or empty; not used where the lake file states an error
  std::vector<std::string> notes{};
};

/// Reads all that a lake file names. Throws InputError; also where the file names soundings or contours instead of a
/// raster: they are to be gridded first, then `lake_from_depth` takes them.
LoadedLake load_lake(const LakeFile& file);

/// The same lake with a depth grid made before: everything but the depths is read, and today's level is applied to
/// them. Where the water has fallen the outline is its new edge, else the shoreline. Throws InputError.
LoadedLake lake_from_depth(const LakeFile& file, GriddedDepth gridded);

/// SHA-256 of a file's bytes, 64 hex digits. Throws InputError when it cannot be read.
std::string sha256_of(const std::string& path);
std::string sha256_of_bytes(std::string_view bytes);

}  // namespace castplan
