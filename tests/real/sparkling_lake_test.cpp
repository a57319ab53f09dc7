// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Sparkling Lake, Wisconsin: North Temperate Lakes LTER (CC BY 4.0). See README.md.
#include <catch2/catch.hpp>

#include "real/contours.hpp"

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
