// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Directions are true, whatever the grid's north. One raster is placed at three eastings of the same grid: where
// nothing is resampled every number stays, and each direction turns by as much as the grid's north does. How much that
// is comes from PROJ: gdaltransform of two places 1 km apart along the grid's north, and the geodesic between them.
#include <algorithm>
#include <iostream>

#include "cli/one_lake.hpp"

using namespace castplan::one_lake;

namespace {

/// True bearing of the grid's north in the middle of the lake.
double grid_north_deg(const Scratch& scratch, double from_west) {
  const double x = from_west + kCols * kCell / 2, y = kSouth + kRows * kCell / 2;
  const std::string in = scratch.write("places.txt", std::to_string(x) + " " + std::to_string(y - 500) + "\n" +
                                                         std::to_string(x) + " " + std::to_string(y + 500) + "\n");
  std::istringstream out(run("gdaltransform -s_srs '" + kMetres + "' -t_srs EPSG:4326 -output_xy < " + in).text);
  castplan::LonLat south, north;
  out >> south.lon.degrees >> south.lat.degrees >> north.lon.degrees >> north.lat.degrees;
  REQUIRE(out);
  return castplan::geodesic(south, north).bearing.value();
}

double turn(double from, double to) { return std::remainder(to - from, 360.0); }

}  // namespace

TEST_CASE("directions turn with the grid's north, the numbers stay") {
  const Scratch scratch;
  const double at_meridian = 500000 - kCols * kCell / 2;
  const auto placed = [&](const std::string& name, double from_west) {
    return scouted(scratch,
                   written(
                       scratch, name, [](double d) { return d; }, kMetres, 1, false, from_west),
                   "--unit m");
  };
  const Told middle = placed("middle", at_meridian);
  REQUIRE(std::abs(turn(0, grid_north_deg(scratch, at_meridian))) < 0.01);
  // 350 km off the meridian the scale is 1.0011: within the 0.2 % for which a grid is kept
  for (const double off : {-350e3, 350e3}) {
    const Told aside = placed(off < 0 ? "west" : "east", at_meridian + off);
    const double north = grid_north_deg(scratch, at_meridian + off);
    REQUIRE(std::abs(turn(0, north)) > 3);
    double worst_facing = 0, worst_bearing = 0;
    int edges = 0;
    const json &features = middle.features["features"], &others = aside.features["features"];
    REQUIRE(features.size() == others.size());
    for (std::size_t i = 0; i < features.size(); ++i) {
      const json &here = features[i]["properties"], &there = others[i]["properties"];
      REQUIRE(here["kind"] == there["kind"]);
      if (here["kind"] != "drop-off") continue;
      ++edges;
      CHECK(std::abs(here["top_depth_m"].get<double>() - there["top_depth_m"].get<double>()) <= 0.0101);
      const double turned = turn(here["faces_deg"].get<double>(), there["faces_deg"].get<double>());
      worst_facing = std::max(worst_facing, std::abs(turn(turned, north)));
    }
    REQUIRE(edges >= 4);
    const json &spots = middle.spots["features"], &twins = aside.spots["features"];
    REQUIRE(spots.size() == twins.size());
    for (std::size_t i = 0; i < spots.size(); ++i) {
      const json &here = spots[i]["properties"], &there = twins[i]["properties"];
      CHECK(std::abs(here["score"].get<double>() - there["score"].get<double>()) <= 0.001);
      CHECK(std::abs(here["target_depth_m"].get<double>() - there["target_depth_m"].get<double>()) <= 0.0101);
      for (const char* way : {"bearing_deg", "approach_deg"}) {
        const double turned = turn(here[way].get<double>(), there[way].get<double>());
        worst_bearing = std::max(worst_bearing, std::abs(turn(turned, north)));
      }
    }
    std::cout << "grid north " << turn(0, north) << " degrees off: facing within " << worst_facing
              << ", bearing within " << worst_bearing << " degrees of the same turn\n";
    CHECK(worst_facing <= 0.15);  // printed to 0.1
    // both bearings run between printed places: half of the last decimal, 0.07 m in 18 m at either end of either
    CHECK(worst_bearing <= 0.5);
  }
}

// Along an edge without cover the score is flat to a hundredth, so that the best place on it may slide when depths
// change by a centimetre: what a person gets must stay as good, and half of it near where it was.
TEST_CASE("resampled, the spots stay as good, rank by rank, and half of them stay near") {
  const Scratch scratch;
  const std::string source = written(
      scratch, "metres", [](double d) { return d; }, kMetres, 1);
  const json wanted = scouted(scratch, source, "--unit m").spots["features"];
  REQUIRE(wanted.size() >= 6);
  for (const auto& [what, warp] :
       {std::pair("degrees", "-t_srs EPSG:4326"), std::pair("web Mercator", "-t_srs EPSG:3857 -tr 7.1 7.1"),
        std::pair("a zone 12 degrees off", "-t_srs EPSG:32626 -tr 5 5"), std::pair("oblong cells", "-tr 4 6")}) {
    const std::string out = scratch.path("warped.tif");
    REQUIRE(run("gdalwarp -q -overwrite -r bilinear -dstnodata -9999 " + std::string(warp) + " " + source + " " + out)
                .code == 0);
    const json found = scouted(scratch, out, "--unit m").spots["features"];
    REQUIRE(found.size() == wanted.size());
    double worst_score = 0;
    std::vector<double> away;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      const json &here = wanted[i]["properties"], &there = found[i]["properties"];
      worst_score = std::max(worst_score, std::abs(here["score"].get<double>() - there["score"].get<double>()));
      away.push_back(1e9);
      for (const json& other : found) {
        away.back() = std::min(away.back(), apart_m(here["target"], other["properties"]["target"]));
      }
    }
    std::sort(away.begin(), away.end());
    std::cout << "spots resampled, " << what << ": score within " << worst_score << ", half within "
              << away[away.size() / 2 - 1] << " m, all within " << away.back() << " m\n";
    CHECK(worst_score <= 0.02);
    CHECK(away[away.size() / 2 - 1] <= 37.5);  // half of the distance that spots keep
  }
}

TEST_CASE("resampled, the sample lake keeps most of its spots to a cell: wood and rock hold them in place") {
  const Scratch scratch;
  const std::string options = " --quiet --water-temp 66F --trend rising --out " + scratch.path("plan");
  const auto spots = [&](const std::string& lake) {
    REQUIRE(run_castplan(scratch, "scout " + lake + options).code == 0);
    return json_in(scratch.path("plan/spots.geojson"))["features"];
  };
  const json wanted = spots(kSample);
  std::filesystem::copy(CASTPLAN_SOURCE_DIR "/sample_rasters", scratch.path("lake"));
  REQUIRE(run("gdalwarp -q -overwrite -r bilinear -dstnodata -9999 -t_srs EPSG:4326 " CASTPLAN_SOURCE_DIR
              "/sample_rasters/ossilby_depth.tif " +
              scratch.path("lake/ossilby_depth.tif"))
              .code == 0);
  const json found = spots(scratch.path("lake/ossilby.toml"));
  REQUIRE(found.size() == wanted.size());
  std::size_t kept = 0;
  double worst_score = 0;
  for (const json& spot : wanted) {
    const json& here = spot["properties"];
    for (const json& other : found) {
      // an edge and the weed line on it are one place: which of them is named first may change
      const json &there = other["properties"], &kinds = there["kinds"];
      if (std::find(kinds.begin(), kinds.end(), here["kinds"][0]) == kinds.end()) continue;
      if (apart_m(here["target"], there["target"]) > 5 * std::sqrt(2.0)) continue;
      ++kept;
      worst_score = std::max(worst_score, std::abs(here["score"].get<double>() - there["score"].get<double>()));
      break;
    }
  }
  std::cout << "sample lake from degrees: " << kept << " of " << wanted.size() << " spots within a cell, score within "
            << worst_score << "\n";
  CHECK(10 * kept >= 6 * wanted.size());
  // one kind more or less within a cast, or a cell further along an edge whose grade changes there
  CHECK(worst_score <= 0.045);
}
