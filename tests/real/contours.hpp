// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/castplan_run.hpp"
#include "real/real_lakes.hpp"

namespace castplan::real {

/// A lake that comes as contour polygons, one a ring: a 0 ft polygon is the shore, or an island when inside another.
struct ContourLake {
  std::string name;
  std::size_t rings;
  double shore_ha;  ///< the outer shoreline
  int islands;
  double islands_ha;
  std::string crs;  ///< only where the file states none
};

/// This version scouts rasters: contours are refused with exit code 3, in words, and nothing is written.
inline void check_scout_wants_a_raster(const std::string& data) {
  const programs::Scratch scratch;
  const auto run =
      programs::run_castplan(scratch, "scout '" + data + "/contours_all.shp' --unit ft --out " + scratch.path("plan"));
  note("scout on contours: exit {}: {}", run.code, run.err);
  CHECK(run.code == 3);
  CHECK(run.out.empty());
  CHECK_THAT(run.err, Catch::Contains("contours_all.shp: cannot be read as a raster") &&
                          Catch::Contains("expected a file that GDAL reads, such as a GeoTIFF"));
  CHECK_FALSE(std::filesystem::exists(scratch.path("plan")));
}

/// Number of rings, area of the shore and of the islands, and the same water as one polygon with holes in degrees.
/// The outside values were measured with other software (each data folder's README).
inline void check_contours(const std::string& data, const ContourLake& lake) {
  const Projection wtm = Projection::from_text("EPSG:3070");
  const auto records = read_vector({data + "/contours_all.shp", "", lake.crs}, wtm);
  CHECK(records.size() == lake.rings);
  std::vector<double> at_surface;  // hectares
  for (const Record& record : records) {
    if (std::stod(record.attributes.at("Depth_ft")) != 0.0) continue;
    at_surface.push_back(area(std::get<Polygons>(record.geometry)).value() / 1e4);
  }
  REQUIRE_FALSE(at_surface.empty());
  std::sort(at_surface.rbegin(), at_surface.rend());
  CHECK(std::abs(percent_off(lake.name + ": shoreline polygon", lake.shore_ha, at_surface[0], "ha")) <= 0.02);
  CHECK(at_surface.size() == 1 + static_cast<std::size_t>(lake.islands));
  double islands = 0;
  for (std::size_t i = 1; i < at_surface.size(); ++i) islands += at_surface[i];
  if (lake.islands > 0) {
    CHECK(std::abs(percent_off(lake.name + ": islands", lake.islands_ha, islands, "ha")) <= 0.1);
  }

  const Polygons water = read_polygons({data + "/derived/shoreline_wgs84.geojson", "", ""}, wtm);
  REQUIRE(water.size() == 1);
  CHECK(water[0].holes.size() == static_cast<std::size_t>(lake.islands));
  CHECK(std::abs(percent_off(lake.name + ": water, read from degrees", at_surface[0] - islands,
                             area(water).value() / 1e4, "ha")) <= 0.02);
}

}  // namespace castplan::real
