// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Sparkling Lake, Wisconsin: North Temperate Lakes LTER (CC BY 4.0). See README.md.
#include <catch2/catch.hpp>

#include "real/contours.hpp"
#include "real/gridded.hpp"

using namespace castplan;
using namespace castplan::real;

namespace {

std::optional<std::string> lake_data() {
  return folder("sparkling-lake-wi", {"contours_all.shp", "derived/shoreline_wgs84.geojson"});
}

}  // namespace

TEST_CASE("Sparkling Lake: 13 contour rings of a single basin") {
  const auto data = lake_data();
  if (!data) return;
  check_contours(*data, {"Sparkling Lake", 13, 58.31, 0, 0, ""});
}

TEST_CASE("Sparkling Lake: contours given as a raster are refused in clear words") {
  const auto data = lake_data();
  if (!data) return;
  check_scout_wants_a_raster(*data);
}

// Outside: shoreline polygon and volume (6.45 to 6.48 million m3) measured with other software from the same contours
// (data folder's README); greatest depth 20 m as published by NTL-LTER.
TEST_CASE("Sparkling Lake: gridded from its contours") {
  const auto data = lake_data();
  if (!data) return;
  const auto told = check_gridded(
      "--contours '" + *data + "/contours_all.shp' --shoreline '" + *data + "/derived/shoreline_wgs84.geojson'",
      {"Sparkling Lake", 58.31, 6.465, 11.1, 20, 0.3, 1, 1, 7});
  CHECK(told["flat_share"].get<double>() < 0.005);
}
