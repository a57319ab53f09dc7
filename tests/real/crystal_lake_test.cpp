// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Crystal Lake, Wisconsin: North Temperate Lakes LTER (CC BY 4.0). See README.md.
#include <catch2/catch.hpp>

#include "real/contours.hpp"
#include "real/gridded.hpp"

using namespace castplan;
using namespace castplan::real;

namespace {

std::optional<std::string> lake_data() {
  return folder("crystal-lake-wi", {"contours_all.shp", "derived/shoreline_wgs84.geojson"});
}

}  // namespace

TEST_CASE("Crystal Lake: 17 contour rings of a round lake") {
  const auto data = lake_data();
  if (!data) return;
  check_contours(*data, {"Crystal Lake", 17, 37.92, 0, 0, ""});
}

TEST_CASE("Crystal Lake: contours given as a raster are refused in clear words") {
  const auto data = lake_data();
  if (!data) return;
  check_scout_wants_a_raster(*data);
}

// Outside: shoreline polygon and volume measured with other software from the same contours (data folder's README);
// greatest depth 20.4 m as published by NTL-LTER, whose deepest contour is 65 ft (19.8 m).
TEST_CASE("Crystal Lake: gridded from its contours") {
  const auto data = lake_data();
  if (!data) return;
  const auto told = check_gridded(
      "--contours '" + *data + "/contours_all.shp' --shoreline '" + *data + "/derived/shoreline_wgs84.geojson'",
      {"Crystal Lake", 37.92, 3.97, 10.5, 20.4, 0.3, 1, 1, 7});
  // it goes on below the last contour by less than one interval
  CHECK(told["max_depth_m"].get<double>() > 19.81);
  CHECK(told["max_depth_m"].get<double>() < 19.81 + 1.53);
  CHECK(told["flat_share"].get<double>() < 0.005);
}
