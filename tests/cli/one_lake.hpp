// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

// One invented lake, written in many ways by GDAL's own tools, so that the reading is not tested against our own
// writing.

#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/geo/geodesic.hpp"
#include "cli/castplan_run.hpp"

namespace castplan::one_lake {

using namespace castplan::programs;
using nlohmann::json;

inline constexpr int kRows = 170, kCols = 210;
inline constexpr double kCell = 5;

// A wavy shore, a shelf that breaks, two holes, two humps: nothing of it symmetric, so that no two places tie.
inline double depth_at(double x, double y) {
  const double angle = std::atan2(y, x);
  const double inwards = 340 + 45 * std::sin(2 * angle + 0.3) + 20 * std::sin(5 * angle + 1) - std::hypot(x, y);
  if (inwards <= 0) return -9999;
  const auto bump = [&](double at_x, double at_y, double sigma) {
    return std::exp(-((x - at_x) * (x - at_x) + (y - at_y) * (y - at_y)) / (2 * sigma * sigma));
  };
  const double shelf = 2.5 * (1 - std::exp(-inwards / 25)) + 3 * (1 + std::tanh((inwards - 90) / 14));
  return shelf + 7 * bump(-130, 40, 55) + 4.5 * bump(120, -60, 50) - 5.2 * bump(15, 95, 32) - 4.1 * bump(30, -120, 30) +
         0.002 * x;
}

inline double depth_m(int row, int col) {
  return depth_at((col - kCols / 2.0 + 0.5) * kCell, (kRows / 2.0 - row - 0.5) * kCell);
}

inline const std::string kMetres =
    "+proj=tmerc +lat_0=0 +lon_0=-39 +k=0.9996 +x_0=500000 +y_0=0 +datum=WGS84 +units=m +no_defs";
inline const std::string kUsFeet =
    "+proj=tmerc +lat_0=0 +lon_0=-39 +k=0.9996 +x_0=500000 +y_0=0 +datum=WGS84 +units=us-ft +no_defs";
inline constexpr double kWest = 420000, kSouth = 5040000;

/// The lake written from a function of depth, with corners and CRS as given, through gdal_translate. scale: units of
/// the CRS in a metre; from_west: the easting of its western edge in metres.
template <class Value>
std::string written(const Scratch& scratch, const std::string& name, Value value, const std::string& crs, double scale,
                    bool south_up = false, double from_west = kWest) {
  const std::string raw = ascii_grid(
      scratch, name + "_raw.asc", kRows, kCols,
      [&](int row, int col) {
        const double depth = depth_m(south_up ? kRows - 1 - row : row, col);
        return depth < 0 ? -9999.0 : value(depth);
      },
      false);
  const double west = from_west * scale, east = (from_west + kCols * kCell) * scale;
  const double south = kSouth * scale, north = (kSouth + kRows * kCell) * scale;
  const auto corners = [](double a, double b, double c, double d) {
    char text[200];
    std::snprintf(text, sizeof text, "%.9f %.9f %.9f %.9f", a, b, c, d);
    return std::string(text);
  };
  const std::string out = scratch.path(name + ".tif");
  const Result made =
      run("gdal_translate -q -ot Float32 -a_srs '" + crs + "' -a_ullr " +
          (south_up ? corners(west, south, east, north) : corners(west, north, east, south)) + " " + raw + " " + out);
  INFO(made.text);
  REQUIRE(made.code == 0);
  return out;
}

/// The same lake on cells of 2 m.
inline std::string written_fine(const Scratch& scratch, const std::string& name) {
  constexpr double kFine = 2;
  const int rows = static_cast<int>(kRows * kCell / kFine), cols = static_cast<int>(kCols * kCell / kFine);
  const std::string raw = ascii_grid(
      scratch, name + "_raw.asc", rows, cols,
      [&](int row, int col) { return depth_at((col - cols / 2.0 + 0.5) * kFine, (rows / 2.0 - row - 0.5) * kFine); },
      false);
  const std::string out = scratch.path(name + ".tif");
  char corners[200];
  std::snprintf(corners, sizeof corners, "%.3f %.3f %.3f %.3f", kWest, kSouth + kRows * kCell, kWest + kCols * kCell,
                kSouth);
  const Result made =
      run("gdal_translate -q -ot Float32 -a_srs '" + kMetres + "' -a_ullr " + corners + " " + raw + " " + out);
  INFO(made.text);
  REQUIRE(made.code == 0);
  return out;
}

struct Told {
  json features, spots;
};

inline Told scouted(const Scratch& scratch, const std::string& raster, const std::string& how) {
  const Run run =
      run_castplan(scratch, "scout " + raster + " " + how +
                                " --secchi 2.2m --water-temp 66F --trend rising --quiet --out " + scratch.path("plan"));
  INFO(raster << " " << how << "\n" << run.err);
  REQUIRE(run.code == 0);
  return {json_in(scratch.path("plan/features.geojson")), json_in(scratch.path("plan/spots.geojson"))};
}

inline double apart_m(const json& a, const json& b) {
  return geodesic({{a[0].get<double>()}, {a[1].get<double>()}}, {{b[0].get<double>()}, {b[1].get<double>()}})
      .distance.value();
}

}  // namespace castplan::one_lake
