// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <sstream>
#include <vector>

#include "castplan/geo/planar.hpp"
#include "cli/castplan_run.hpp"

/// The sample lake as other programs read it: the raster as gdal_translate prints it, layers as ogr2ogr prints them,
/// places through gdaltransform (PROJ).
namespace castplan::programs {

inline const std::string kData = CASTPLAN_SOURCE_DIR "/sample_rasters/";

inline LonLat lonlat(const nlohmann::json& place) { return {{place[0].get<double>()}, {place[1].get<double>()}}; }

/// The raster of the sample, bilinear between cell centres: the arithmetic of any textbook, not ours. Land counts as 0.
class Raster {
 public:
  explicit Raster(const Scratch& scratch) {
    const std::string path = scratch.path("sample.asc");
    REQUIRE(run("gdal_translate -q -of AAIGrid " + kData + "ossilby_depth.tif " + path).code == 0);
    std::ifstream in(path);
    std::string word;
    in >> word >> cols_ >> word >> rows_ >> word >> west_ >> word >> south_ >> word >> cell_ >> word >> none_;
    REQUIRE(word == "NODATA_value");
    values_.resize(static_cast<std::size_t>(rows_ * cols_));
    for (double& value : values_) in >> value;
    REQUIRE(in);
  }
  [[nodiscard]] double depth(XY at) const {
    const double x = (at.x - west_) / cell_ - 0.5;
    const double y = (south_ + rows_ * cell_ - at.y) / cell_ - 0.5;
    const int col = static_cast<int>(std::floor(x)), row = static_cast<int>(std::floor(y));
    const double u = x - col, v = y - row;
    return (1 - v) * ((1 - u) * cell(row, col) + u * cell(row, col + 1)) +
           v * ((1 - u) * cell(row + 1, col) + u * cell(row + 1, col + 1));
  }

 private:
  [[nodiscard]] double cell(int row, int col) const {
    if (row < 0 || col < 0 || row >= rows_ || col >= cols_) return NAN;
    const double value = values_[static_cast<std::size_t>(row * cols_ + col)];
    return value == none_ ? 0 : value;
  }
  int rows_ = 0, cols_ = 0;
  double west_ = 0, south_ = 0, cell_ = 0, none_ = 0;
  std::vector<double> values_;
};

/// Polygons of a layer in the raster's CRS (UTM zone 24N).
inline Polygons polygons_of(const std::string& file) {
  const Result printed = run("ogr2ogr -f GeoJSON -lco RFC7946=NO -t_srs EPSG:32624 /vsistdout/ " + kData + file);
  REQUIRE(printed.code == 0);
  Polygons all;
  const auto ring = [](const nlohmann::json& points) {
    Ring out;
    for (const nlohmann::json& point : points) out.push_back({point[0].get<double>(), point[1].get<double>()});
    return out;
  };
  const nlohmann::json read = nlohmann::json::parse(printed.text);
  for (const nlohmann::json& feature : read["features"]) {
    REQUIRE(feature["geometry"]["type"] == "Polygon");
    const nlohmann::json& rings = feature["geometry"]["coordinates"];
    Polygon polygon{ring(rings[0]), {}};
    for (std::size_t i = 1; i < rings.size(); ++i) polygon.holes.push_back(ring(rings[i]));
    all.push_back(std::move(polygon));
  }
  return all;
}

inline Lines rings_of(const Polygons& polygons) {
  Lines lines;
  for (const auto& polygon : polygons) {
    lines.push_back(polygon.outer);
    lines.insert(lines.end(), polygon.holes.begin(), polygon.holes.end());
  }
  return lines;
}

/// Longitudes and latitudes on the raster's grid.
inline std::vector<XY> on_grid(const Scratch& scratch, const std::vector<LonLat>& places) {
  std::string text;
  for (const LonLat& place : places) {
    text += std::to_string(place.lon.degrees) + " " + std::to_string(place.lat.degrees) + "\n";
  }
  const std::string in = scratch.write("places.txt", text);
  std::istringstream out(run("gdaltransform -s_srs EPSG:4326 -t_srs EPSG:32624 -output_xy < " + in).text);
  std::vector<XY> found(places.size());
  for (XY& at : found) out >> at.x >> at.y;
  REQUIRE(out);
  return found;
}

/// The features of one file of a plan of the sample lake, in the folder "plan".
inline nlohmann::json sample_file(const Scratch& scratch, const std::string& file, const std::string& options) {
  const Run run = run_castplan(scratch, "scout " + kSample + " --quiet --out " + scratch.path("plan") + options);
  INFO(run.err);
  REQUIRE(run.code == 0);
  return json_in(scratch.path("plan/" + file))["features"];
}

}  // namespace castplan::programs
