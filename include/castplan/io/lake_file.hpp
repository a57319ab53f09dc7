// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "castplan/io/raster.hpp"
#include "castplan/io/soundings.hpp"
#include "castplan/io/vector.hpp"

namespace castplan {

/// A lake file as written, checked but with nothing read behind it. Paths are already relative to the lake file's
/// folder. Dates are ISO texts (YYYY-MM-DD; MM-DD for seasons), quantities carry their unit.
struct LakeFile {
  std::string path;  ///< empty for a bare raster
  std::string name;
  std::string water = "lake";  ///< lake, reservoir, river
  std::string time_zone;
  std::vector<std::string> holds;

  RasterOptions raster;  ///< surface, survey_surface and level_offset filled from [depth] and [level]
  /// Instead of a raster (its path is then empty). All are reduced to one surface, raster.survey_surface where it is
  /// known: level_offset and surface of each are filled for that.
  std::vector<SoundingOptions> soundings;
  std::vector<ContourOptions> contours;
  std::optional<Metres> cell;             ///< side of a cell of the depth grid to be made
  std::string source, licence, surveyed;  ///< of the depths
  std::optional<Metres> depth_error;

  struct Level {
    std::optional<Metres> survey, today, offset, yearly_range;
  } level;

  std::optional<VectorOptions> shoreline;

  struct Structure {
    VectorOptions file;
    std::string kind;                        ///< for the whole layer, or
    std::string attribute;                   ///< the field to look at, and
    std::map<std::string, std::string> map;  ///< what its values stand for
  };
  std::vector<Structure> structure;

  struct Launch {
    std::string name;
    std::optional<LonLat> at;
    std::optional<VectorOptions> file;
    std::optional<Metres> usable_above;
  };
  std::vector<Launch> launches;

  struct Closure {
    VectorOptions file;
    std::string kind;
    std::string name;
    std::optional<Metres> buffer;
    std::string from, to;
  };
  std::vector<Closure> closures;

  struct Rules {
    std::string text, source, checked;
    std::vector<std::pair<std::string, std::string>> open;  ///< MM-DD pairs, both days included
  } rules;

  struct Boat {
    std::string type = "motor";
    Metres draft = Metres(0.45);
  } boat;

  struct Conditions {
    std::optional<Metres> secchi, weed_depth;  ///< weed_depth at survey level
    std::string plants;                        ///< CSV path
    std::optional<Celsius> water_temp;
    std::string water_temp_at = "main";  ///< main, bay, ramp
    std::string water_temp_taken;
    std::string water_temps, air_temps, profile, wind;  ///< CSV paths
    std::vector<std::string> forage;
  } conditions;
};

/// The lake file's own words for structure, for help and messages.
std::span<const std::string_view> structure_kinds();

/// Reads and checks a lake file (TOML). Throws InputError with file, line, what was found, what was expected; unknown
/// keys come with the nearest known one.
LakeFile read_lake_file(const std::string& path);

/// True when the path is a lake file by its ending (.toml).
bool is_lake_file(const std::string& path);

}  // namespace castplan
