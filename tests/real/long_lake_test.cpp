// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Long Lake, Nova Scotia: sample data of the R package ggspatial (GPL-3). See README.md.
#include <catch2/catch.hpp>

#include "real/gridded.hpp"

using namespace castplan;
using namespace castplan::real;

namespace {

std::optional<std::string> lake_data() {
  return folder("long-lake-ns", {"longlake_depth.tif", "LongLakeMarshWaterPoly.shp"});
}

}  // namespace

TEST_CASE("Long Lake: oblong cells give the area, mean depth and volume of the survey") {
  const auto data = lake_data();
  if (!data) return;
  const Lake lake = load_lake(raster_file(*data + "/longlake_depth.tif", DepthUnit::metre)).lake;

  // Published: a TIN of the soundings with the shoreline as zero on a 10 m grid (D. Dunnington 2019, "Bathymetry & Lake
  // Volume Estimation using R"). The raster is another interpolation of the same soundings, so that the two need not
  // agree closely: 4 %.
  CHECK(std::abs(percent_off("Long Lake: area, published TIN", 971004, lake.area.value(), "m2")) <= 4.0);
  CHECK(std::abs(percent_off("Long Lake: mean depth, published TIN", 0.9387, lake.mean_depth.value(), "m")) <= 4.0);
  CHECK(std::abs(percent_off("Long Lake: volume, published TIN", 911488, lake.volume.value(), "m3")) <= 4.0);

  // Counted in this raster with other software (data folder's README): 3,416 cells, 29 of them slightly negative;
  // mean and volume over the positive cells.
  CHECK(std::abs(percent_off("Long Lake: area of all cells, counted", 969711, lake.area.value(), "m2")) <= 1.5);
  const double positive_area = (3416 - 29) * 18.272727272706106 * 15.535353534854949;
  CHECK(std::abs(percent_off("Long Lake: area of positive cells", positive_area, lake.area.value(), "m2")) <= 0.5);
  CHECK(std::abs(percent_off("Long Lake: mean depth, counted", 0.969, lake.mean_depth.value(), "m")) <= 0.5);
  CHECK(std::abs(percent_off("Long Lake: volume, counted", 931318, lake.volume.value(), "m3")) <= 0.5);
  CHECK(std::abs(percent_off("Long Lake: maximum depth, counted", 2.036, lake.max_depth.value(), "m")) <= 1.0);
  note("Long Lake: {:.2f} of the edge is cut, {} waters", lake.cut_share, lake.bodies.size());
}

TEST_CASE("Long Lake: the lake's own outline is read from three lakes with Z values") {
  const auto data = lake_data();
  if (!data) return;
  const Projection utm = Projection::from_text("EPSG:26920");
  const auto records = read_vector({*data + "/LongLakeMarshWaterPoly.shp", "", ""}, utm);
  CHECK(records.size() == 3);
  int found = 0;
  for (const Record& record : records) {
    if (record.attributes.count("label") == 0 || record.attributes.at("label") != "Long Lake") continue;
    ++found;
    const auto& polygons = std::get<Polygons>(record.geometry);
    // 971,004.3 m2 and 5,736 m: measured with other software (data folder's README)
    CHECK(std::abs(percent_off("Long Lake: outline's area", 971004.3, area(polygons).value(), "m2")) <= 0.01);
    REQUIRE(polygons.size() == 1);
    CHECK(std::abs(percent_off("Long Lake: outline's length", 5736, length(polygons[0].outer).value(), "m")) <= 0.05);
  }
  CHECK(found == 1);
}

TEST_CASE("Long Lake: clipped by a layer of three lakes, it has the shore of its own one") {
  const auto data = lake_data();
  if (!data) return;
  LakeFile file = raster_file(*data + "/longlake_depth.tif", DepthUnit::metre);
  file.shoreline = VectorOptions{*data + "/LongLakeMarshWaterPoly.shp", "", ""};
  const LoadedLake loaded = load_lake(file);
  for (const std::string& said : loaded.notes) note("Long Lake: {}", said);
  // 971,004.3 m2 and 5,736 m, without the other two lakes: measured with other software (data folder's README)
  CHECK(std::abs(percent_off("Long Lake: outline of the plan", 971004.3, area(loaded.lake.outline).value(), "m2")) <=
        0.1);
  CHECK(std::abs(percent_off("Long Lake: shoreline of the plan", 5736, loaded.lake.shoreline.value(), "m")) <= 0.1);
  // The raster leaves a strip along this shore without a depth: that part of the edge is unknown.
  CHECK(std::abs(percent_off("Long Lake, clipped: area, published TIN", 971004, loaded.lake.area.value(), "m2")) <=
        4.0);
  CHECK(std::abs(percent_off("Long Lake, clipped: volume, published TIN", 911488, loaded.lake.volume.value(), "m3")) <=
        4.0);
  CHECK(loaded.lake.cut_share > 0.0);
}

// 64 soundings on 97 ha, in feet, and the outline of one of three lakes. Published: a TIN of the same with the
// shoreline as zero on a 10 m grid (D. Dunnington 2019, as above). A TIN has triangles of depth 0 between points of the
// shore, where a plate is deeper, so that the two need not agree closely: 13 % on volume and mean depth. The deepest
// sounding is 6 ft (data folder's README).
TEST_CASE("Long Lake: gridded from its 64 soundings") {
  const auto data = folder("long-lake-ns", {"LongLakeDepthSurvey.shp", "LongLakeMarshWaterPoly.shp"});
  if (!data) return;
  const auto told = check_gridded("--soundings '" + *data + "/LongLakeDepthSurvey.shp' --field DEPTH --unit ft " +
                                      "--shoreline '" + *data + "/LongLakeMarshWaterPoly.shp' --cell 10m",
                                  {"Long Lake", 97.1004, 0.911488, 0.9387, 6 * 0.3048, 0.3, 13, 13, 8});
  CHECK(told["rejected"]["spike"] == 0);
}
