// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Lake Rotoma, New Zealand: sample data of the R package bathytools (GPL-3); terrain from Land Information New Zealand
// (CC BY 4.0). See README.md.
#include <catch2/catch.hpp>

#include "castplan/geo/error.hpp"
#include "real/gridded.hpp"
#include "real/real_lakes.hpp"

using namespace castplan;
using namespace castplan::real;

namespace {

std::optional<std::string> lake_data() {
  return folder("lake-rotoma-nz", {"dem_32m.tif", "shoreline.shp", "depth_points.csv", "depth_contours.shp"});
}

// The terrain holds the lake's surface, flat at 313.30 m, and not its bed.
LakeFile terrain(const std::string& data) {
  LakeFile file = raster_file(data + "/dem_32m.tif", DepthUnit::metre, Sense::elevation);
  file.raster.surface = Metres(313.30);
  return file;
}

}  // namespace

TEST_CASE("Lake Rotoma: the shoreline has the registered area") {
  const auto data = lake_data();
  if (!data) return;
  const Projection nztm = Projection::from_text("EPSG:2193");
  const Polygons shore = read_polygons({*data + "/shoreline.shp", "", ""}, nztm);
  REQUIRE(shore.size() == 1);
  // New Zealand lake register in the package AEME
  CHECK(std::abs(percent_off("Lake Rotoma: area, register", 1113.68, area(shore).value() / 1e4, "ha")) <= 0.01);
  // measured with other software (data folder's README)
  CHECK(std::abs(percent_off("Lake Rotoma: outline", 24.90, length(shore[0].outer).value() / 1e3, "km")) <= 0.1);
}

TEST_CASE("Lake Rotoma: a terrain that shows the lake's surface is refused") {
  const auto data = lake_data();
  if (!data) return;
  LakeFile file = terrain(*data);
  file.shoreline = VectorOptions{*data + "/shoreline.shp", "", ""};
  try {
    const Lake lake = load_lake(file).lake;
    FAIL("a lake of " << lake.area.value() / 1e4 << " ha came out of its own flat surface");
  } catch (const InputError& error) {
    note("Lake Rotoma: refused: {}", error.what());
    CHECK_THAT(error.what(), Catch::Contains("dem_32m.tif: its deepest water is 0.000 m") &&
                                 Catch::Contains("surface 313.30 m") && Catch::Contains("shows the lake's surface"));
  }
}

TEST_CASE("Lake Rotoma: valleys below the lake's surface are taken for water, and the plan says so") {
  const auto data = lake_data();
  if (!data) return;
  const LoadedLake loaded = load_lake(terrain(*data));
  const Lake& lake = loaded.lake;
  const auto says = [&](const std::string& note) {
    return note.find("give the lake's shoreline") != std::string::npos;
  };
  CHECK(std::any_of(loaded.notes.begin(), loaded.notes.end(), says));
  const Polygons shore = read_polygons({*data + "/shoreline.shp", "", ""}, lake.projection);
  int inside = 0, deep = 0;
  for (std::size_t at = 0; at < lake.depth.size(); ++at) {
    if (!contains(shore, lake.depth.frame().centre(lake.depth.cell_of(at)))) continue;
    ++inside;
    if (lake.cover[at] == Cover::water && lake.depth[at].value() > 0.1F) ++deep;
  }
  note("Lake Rotoma: {:.0f} ha of valleys as water; {} cells inside the shoreline, {} of them deeper than 0.1 m",
       lake.area.value() / 1e4, inside, deep);
  CHECK(std::abs(percent_off("Lake Rotoma: cells inside, 32 m", 11136805 / 1024.0, inside, "")) <= 0.5);
  CHECK(deep == 0);
}

// Outside: the shoreline's own area (data folder's README). Mean 36.9 m and greatest depth 83 m are commonly quoted;
// the data folder has them from memory, so they are held loosely. The contours reach 80 m, the soundings 80.5 m.
TEST_CASE("Lake Rotoma: gridded from ten thousand soundings with negative depths in degrees") {
  const auto data = lake_data();
  if (!data) return;
  const auto told =
      check_gridded("--unit m --soundings '" + *data + "/depth_points.csv' --shoreline '" + *data + "/shoreline.shp'",
                    {"Lake Rotoma", 1113.68, 0, 36.9, 83, 0.3, 0, 8, 3});
  CHECK(told["rejected"]["on land"] == 1);
}

TEST_CASE("Lake Rotoma: gridded from its contours alone, the zero contour for a shoreline") {
  const auto data = lake_data();
  if (!data) return;
  const auto told = check_gridded("--unit m --contours '" + *data + "/depth_contours.shp'",
                                  {"Lake Rotoma", 1113.68, 0, 36.9, 83, 1, 0, 8, 3});
  CHECK(told["max_depth_m"].get<double>() > 80);
}
