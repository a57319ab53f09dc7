// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <string>

#include "support/programs.hpp"

namespace castplan::programs {

/// One run of the program: exit code, and what it printed on either stream.
struct Run {
  int code;
  std::string out;
  std::string err;
};

inline Run run_castplan(const Scratch& scratch, const std::string& arguments, const std::string& folder = "") {
  const std::string out = scratch.path(".stdout");
  const std::string err = scratch.path(".stderr");
  const std::string go = folder.empty() ? "" : "cd '" + folder + "' && ";
  const Result result = run(go + "{ " CASTPLAN_PROGRAM " " + arguments + " >" + out + " 2>" + err + "; }");
  return {result.code, read(out), read(err)};
}

inline const std::string kSample = CASTPLAN_SOURCE_DIR "/sample_rasters/ossilby.toml";

/// Names and bytes of all files of a folder, hidden ones too; empty when there is none.
inline std::map<std::string, std::string> files_in(const std::string& folder) {
  std::map<std::string, std::string> all;
  if (!std::filesystem::is_directory(folder)) return all;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    all[std::filesystem::relative(entry.path(), folder).string()] =
        entry.is_regular_file() ? read(entry.path().string()) : "(folder)";
  }
  return all;
}

inline nlohmann::json json_in(const std::string& path) { return nlohmann::json::parse(read(path)); }

/// A depth raster as an ESRI ASCII grid of 5 m cells with its own .prj (UTM zone 24N), row by row from the north.
template <class Depth>
std::string ascii_grid(const Scratch& scratch, const std::string& name, int rows, int cols, Depth depth,
                       bool with_crs = true) {
  std::string text = "ncols " + std::to_string(cols) + "\nnrows " + std::to_string(rows) +
                     "\nxllcorner 420000\nyllcorner 5040000\ncellsize 5\nNODATA_value -9999\n";
  for (int row = 0; row < rows; ++row) {
    for (int col = 0; col < cols; ++col) text += std::to_string(depth(row, col)) + " ";
    text += "\n";
  }
  if (with_crs) {
    scratch.write(
        std::filesystem::path(name).stem().string() + ".prj",
        "PROJCS[\"WGS 84 / UTM zone 24N\",GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\",6378137,"
        "298.257223563]],PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Transverse_"
        "Mercator\"],PARAMETER[\"latitude_of_origin\",0],PARAMETER[\"central_meridian\",-39],PARAMETER[\"scale_"
        "factor\",0.9996],PARAMETER[\"false_easting\",500000],PARAMETER[\"false_northing\",0],UNIT[\"metre\",1]]");
  }
  return scratch.write(name, text);
}

/// Depth of a bowl of 40 x 40 cells, 6 m deep; -9999 outside.
inline double small_bowl(int row, int col) {
  const double r2 = (row - 19.5) * (row - 19.5) + (col - 19.5) * (col - 19.5);
  return r2 < 18 * 18 ? 6 * (1 - r2 / (18 * 18)) : -9999;
}

}  // namespace castplan::programs
