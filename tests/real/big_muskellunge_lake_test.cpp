// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Big Muskellunge Lake, Wisconsin: North Temperate Lakes LTER (CC BY 4.0). See README.md.
#include <catch2/catch.hpp>

#include "real/contours.hpp"
#include "real/gridded.hpp"

using namespace castplan;
using namespace castplan::real;

namespace {

std::optional<std::string> lake_data() {
  return folder("big-muskellunge-lake-wi", {"contours_all.shp", "derived/shoreline_wgs84.geojson"});
}

}  // namespace

TEST_CASE("Big Muskellunge Lake: 74 contour rings, five of them islands") {
  const auto data = lake_data();
  if (!data) return;
  check_contours(*data, {"Big Muskellunge Lake", 74, 376.67, 5, 11.09, ""});
}

TEST_CASE("Big Muskellunge Lake: contours given as a raster are refused in clear words") {
  const auto data = lake_data();
  if (!data) return;
  check_scout_wants_a_raster(*data);
}

// Outside: water, volume (28.2 to 28.3 million m3) and mean depth measured with other software from the same contours,
// with the bottom flat at 21.3 m, which is less than the lake holds (data folder's README); greatest depth as
// published.
TEST_CASE("Big Muskellunge Lake: gridded from its contours") {
  const auto data = lake_data();
  if (!data) return;
  const auto told = check_gridded(
      "--contours '" + *data + "/contours_all.shp' --shoreline '" + *data + "/derived/shoreline_wgs84.geojson'",
      {"Big Muskellunge Lake", 365.6, 28.25, 7.7, 21.3, 0.3, 2, 2, 3});
  CHECK(told["flat_share"].get<double>() < 0.005);
}
