// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <cstdio>
#include <numbers>

#include "cli/story.hpp"

// A natural lake known only from an old map: contours every 5 ft as ellipses whose middles move north as they go
// down, so that the north side is a steep bank and the south side a long gentle slope. All below is closed form.

using namespace castplan;
using namespace castplan::story;

namespace {

constexpr double kWest = 420000, kSouth = 5040000;  // the middle of the shoreline
constexpr double kFoot = 0.3048, kBottom = 50 * kFoot;

/// Half axes and the northing of the middle of the contour at a share of the greatest depth.
double east_half(double share) { return 420 * (1 - share) + 40 * share; }
double north_half(double share) { return 240 * (1 - share) + 20 * share; }
double middle(double share) { return 180 * share; }

/// The depth at a place, by halving: contours lie within one another.
double depth_at(XY at) {
  const auto inside = [&](double share) {
    const double x = (at.x - kWest) / east_half(share), y = (at.y - kSouth - middle(share)) / north_half(share);
    return x * x + y * y <= 1;
  };
  if (!inside(0)) return 0;
  if (inside(1)) return kBottom;
  double low = 0, high = 1;
  for (int i = 0; i < 60; ++i) (inside((low + high) / 2) ? low : high) = (low + high) / 2;
  return low * kBottom;
}

/// The contours as a shapefile without a .prj, made by ogr2ogr: depths in feet, as they stand on the map.
void old_map(const Story& story) {
  std::string rows = "wkt,DEPTH\n";
  for (int feet = 0; feet <= 45; feet += 5) {
    const double share = feet / 50.0;
    rows += "\"LINESTRING(";
    for (int i = 0; i <= 180; ++i) {
      const double turn = (i % 180) * std::numbers::pi / 90;
      char place[80];
      std::snprintf(place, sizeof place, "%s%.3f %.3f", i > 0 ? "," : "", kWest + east_half(share) * std::cos(turn),
                    kSouth + middle(share) + north_half(share) * std::sin(turn));
      rows += place;
    }
    rows += ")\"," + std::to_string(feet) + "\n";
  }
  const std::string csv = story.scratch.write("contours.csv", rows);
  const Result made =
      run("ogr2ogr -f 'ESRI Shapefile' -oo GEOM_POSSIBLE_NAMES=wkt -oo KEEP_GEOM_COLUMNS=NO -oo "
          "AUTODETECT_TYPE=YES " +
          story.scratch.path("old_map.shp") + " " + csv);
  INFO(made.text);
  REQUIRE(made.code == 0);
  REQUIRE_FALSE(std::filesystem::exists(story.scratch.path("old_map.prj")));
}

void check_depths(const Story& story) {
  const json lake = story.summary()["lake"];
  const double area = std::numbers::pi * east_half(0) * north_half(0);
  CHECK(lake["area_m2"].get<double>() == Approx(area).epsilon(0.01));
  // 50 ft, not 50 m and not 15 ft; the map's deepest line is 45 ft
  CHECK(lake["max_depth_m"].get<double>() > 45 * kFoot - 0.1);
  CHECK(lake["max_depth_m"].get<double>() < 55 * kFoot);
  // volume: the integral of pi a b over depth, by Simpson's rule, exact for a square of the share
  const auto slice = [](double share) { return std::numbers::pi * east_half(share) * north_half(share); };
  const double volume = kBottom * (slice(0) + 4 * slice(0.5) + slice(1)) / 6;
  CHECK(lake["volume_m3"].get<double>() == Approx(volume).epsilon(0.03));
}

/// The bank is the north side: 50 ft within 240 - 200 m of the shore there, against 400 m in the south.
void check_features(const Story& story) {
  const json pools = story.features("pool");
  REQUIRE(pools.size() == 1);
  CHECK(place_of(pools[0]["properties"]["deepest"]).y > kSouth + 120);
  const json edges = story.features("drop-off");
  REQUIRE_FALSE(edges.empty());
  for (const json& edge : edges) {
    for (const json& at : edge["geometry"]["coordinates"]) CHECK(place_of(at).y > kSouth);
    const double faces = edge["properties"]["faces_deg"];
    CHECK(std::cos((faces - 180) * std::numbers::pi / 180) > 0);  // down to the south, into the lake
  }
}

void check_spots(const Story& story) {
  const json spots = story.spots();
  REQUIRE(spots.size() >= 4);
  for (const json& spot : spots) {
    const json& facts = spot["properties"];
    INFO(facts["id"]);
    const double under_boat = depth_at(place_of(spot["geometry"]["coordinates"]));
    CHECK(under_boat > 1.05);  // floats a boat of 0.45 m with its margin
    CHECK(std::abs(facts["boat_depth_m"].get<double>() - under_boat) < 1.0);
    CHECK(depth_at(place_of(facts["target"])) > 0);  // on water
    CHECK(facts["cast_m"].get<double>() >= 11.9);
    CHECK(facts["cast_m"].get<double>() <= 25.1);
    CHECK(facts["target_depth_m"].get<double>() < 7.5);  // what a lure is cast for
  }
}

}  // namespace

TEST_CASE("story: a natural lake from old foot contours, in a June wind") {
  const Story story;
  old_map(story);
  const std::string grid = "grid --contours old_map.shp --field DEPTH --unit ft --cell 5m --out depth.tif ";
  // where the map lies on the earth nobody can guess
  CHECK(story.castplan(grid, 3).err.find("--crs") != std::string::npos);
  CHECK_FALSE(std::filesystem::exists(story.scratch.path("depth.tif")));
  story.castplan(grid + "--crs EPSG:32624");

  const std::string scout = "scout depth.tif --out plan --secchi 9ft --date 2026-06-15 --water-temp 66F ";
  const Run calm = story.castplan(scout);
  check_depths(story);
  check_features(story);
  check_spots(story);
  // Caffrey et al. (2007): log10 z = 0.66 log10 Secchi + 0.31
  const double weeds = std::pow(10, 0.66 * std::log10(9 * kFoot) + 0.31);
  CHECK(story.summary()["conditions"]["weed_depth_m"].get<double>() == Approx(weeds).margin(0.006));
  CHECK(story.summary()["conditions"]["phases"] == json::array({"early-summer"}));
  CHECK(story.summary()["conditions"]["trend"] == "rising");  // June, north of the equator
  CHECK(calm.out.find("sunrise") != std::string::npos);
  CHECK(calm.out.find("Odds:") != std::string::npos);

  // 12 mph from the southwest: fishable, and every pass is worked into or across it, never before it
  story.castplan(scout + "--wind '12 mph from 225'");
  check_spots(story);
  CHECK(story.summary()["conditions"]["wind"].get<std::string>().find("5 m/s from the southwest") != std::string::npos);
  const json passes = story.passes();
  REQUIRE_FALSE(passes.empty());
  for (const json& pass : passes) {
    const XY from = place_of(pass["geometry"]["coordinates"].front());
    const XY to = place_of(pass["geometry"]["coordinates"].back());
    const double way = std::atan2(to.x - from.x, to.y - from.y);
    INFO(pass["properties"]["id"]);
    CHECK(std::cos(way - 225 * std::numbers::pi / 180) > -0.1);
  }
  // 25 mph: 11 m/s is more than an open boat of 5 m should meet (design limit of 10 m/s), said before all else
  const Run rough = story.castplan(scout + "--wind '25 mph from 225'");
  CHECK(rough.out.find("Stay ashore") != std::string::npos);
  story.everywhere("Too rough for an open motor boat");
}
