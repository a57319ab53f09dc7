// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Lake Mendota, Wisconsin: North Temperate Lakes LTER (CC BY 4.0). See README.md.
#include <catch2/catch.hpp>
#include <vector>

#include "castplan/geo/error.hpp"
#include "castplan/season/weeds.hpp"
#include "real/contours.hpp"
#include "real/gridded.hpp"

using namespace castplan;
using namespace castplan::real;

namespace {

std::optional<std::string> lake_data() {
  return folder("mendota-wi",
                {"macrophyte_rakes.csv", "secchi.csv", "contours_all.shp", "derived/shoreline_wgs84.geojson"});
}

// A cast has plants where the hand-picked plants weigh anything; filamentous algae are weighed apart.
std::vector<PlantSample> casts(const std::string& data) {
  std::vector<PlantSample> out;
  for (const auto& row : table(data + "/macrophyte_rakes.csv")) {
    out.push_back({Metres(std::stod(row.at("depth"))), std::stod(row.at("plant_wt_hand")) > 0});
  }
  return out;
}

}  // namespace

TEST_CASE("Lake Mendota: share of rake casts with plants by depth") {
  const auto data = lake_data();
  if (!data) return;
  const auto samples = casts(*data);
  // shares counted with other software (data folder's README), in whole percent
  struct Row {
    double depth, percent;
  };
  for (const Row& row : {Row{1, 78}, Row{2, 88}, Row{3, 82}, Row{3.5, 68}, Row{4, 53}}) {
    double all = 0, with = 0;
    for (const PlantSample& sample : samples) {
      if (sample.depth.value() != row.depth) continue;
      ++all;
      if (sample.present) ++with;
    }
    REQUIRE(all > 0);
    const double share = 100.0 * with / all;
    percent_off(fmt::format("Lake Mendota: casts with plants at {} m", row.depth), row.percent, share, "%");
    CHECK(std::abs(share - row.percent) <= 1.0);
  }
}

TEST_CASE("Lake Mendota: casts that stop before the plants do are refused") {
  const auto data = lake_data();
  if (!data) return;
  const auto samples = casts(*data);
  REQUIRE(samples.size() == 10394);
  // Half of the casts at 4.5 m, the deepest, still have plants, and those at 1 m have fewer than those at 2 m, so that
  // one curve through all of them crosses even odds at 5.246 m (plant_edge.py, a fit of its own): beyond the samples.
  try {
    const WeedDepth fit = fit_weed_depth(samples);
    FAIL("an edge at " << fit.expected.value() << " m came out of samples that end at 4.5 m");
  } catch (const InputError& error) {
    note("Lake Mendota: all casts: {}", error.what());
    CHECK_THAT(error.what(), Catch::Contains("5.2 m") && Catch::Contains("outside the sampled 1.0 to 4.5 m") &&
                                 Catch::Contains("sample further"));
  }
}

TEST_CASE("Lake Mendota: the plant edge fitted to the casts from 2 m down, where plants are commonest") {
  const auto data = lake_data();
  if (!data) return;
  auto samples = casts(*data);
  std::erase_if(samples, [](const PlantSample& sample) { return sample.depth < Metres(2); });
  REQUIRE(samples.size() == 7284);
  const WeedDepth fit = fit_weed_depth(samples);
  // plant_edge.py: Newton's method and the delta method, written apart from the program
  CHECK(std::abs(percent_off("Lake Mendota: plant edge from 2 m down", 4.24267, fit.expected.value(), "m")) <= 0.01);
  CHECK(std::abs(percent_off("Lake Mendota: its 90 % interval, low", 4.15580, fit.low.value(), "m")) <= 0.01);
  CHECK(std::abs(percent_off("Lake Mendota: its 90 % interval, high", 4.32955, fit.high.value(), "m")) <= 0.01);
  // More than half of the casts at 3.5 and at 4 m have plants (data folder's README: the true edge is deeper).
  CHECK(fit.expected > Metres(3.5));

  std::vector<double> summer;  // metres, June to August
  for (const auto& row : table(*data + "/secchi.csv")) {
    const int month = std::stoi(row.at("date").substr(5, 2));
    if (month >= 6 && month <= 8 && !row.at("secchi_m").empty()) summer.push_back(std::stod(row.at("secchi_m")));
  }
  const double secchi = median(summer);
  CHECK(std::abs(percent_off("Lake Mendota: median summer Secchi, README", 2.1, secchi, "m")) <= 2.5);  // one decimal
  const WeedDepth band = weed_depth_from_secchi(Metres(secchi));
  percent_off("Lake Mendota: edge predicted from Secchi, by the fitted", fit.expected.value(), band.expected.value(),
              "m");
  note("Lake Mendota: predicted band {:.2f} to {:.2f} m", band.low.value(), band.high.value());
  CHECK(fit.expected >= band.low);
  CHECK(fit.expected <= band.high);
}

TEST_CASE("Lake Mendota: contours given as a raster are refused in clear words") {
  const auto data = lake_data();
  if (!data) return;
  check_scout_wants_a_raster(*data);
}

TEST_CASE("Lake Mendota: 89 contour polygons without a .prj need to be told their CRS") {
  const auto data = lake_data();
  if (!data) return;
  CHECK_THROWS_WITH(read_vector({*data + "/contours_all.shp", "", ""}, Projection::from_text("EPSG:3070")),
                    Catch::Contains("contours_all.shp: states no CRS"));
  check_contours(*data, {"Lake Mendota", 89, 3879.85, 0, 0, "EPSG:3070"});
  // published: NTL-LTER lake page; its shoreline is not that of the digitised map
  const Projection wtm = Projection::from_text("EPSG:3070");
  const Polygons water = read_polygons({*data + "/derived/shoreline_wgs84.geojson", "", ""}, wtm);
  CHECK(std::abs(percent_off("Lake Mendota: area, published", 3961, area(water).value() / 1e4, "ha")) <= 3.0);
}

// Outside: shoreline polygon, volume and mean depth measured with other software from the same contours (data folder's
// README); greatest depth 25.3 m as published by NTL-LTER.
TEST_CASE("Lake Mendota: gridded from contours without a coordinate system") {
  const auto data = lake_data();
  if (!data) return;
  const auto told = check_gridded("--crs EPSG:3070 --contours '" + *data + "/contours_all.shp' --shoreline '" + *data +
                                      "/derived/shoreline_wgs84.geojson'",
                                  {"Lake Mendota", 3879.85, 490.5, 12.6, 25.3, 0.3, 0.5, 1, 2});
  CHECK(told["flat_share"].get<double>() < 0.005);
}
