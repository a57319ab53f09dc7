// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Crystal Lake, Wisconsin: North Temperate Lakes LTER (CC BY 4.0). See README.md.
#include <catch2/catch.hpp>

#include "real/contours.hpp"

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
