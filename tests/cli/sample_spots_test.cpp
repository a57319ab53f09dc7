// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// The spots of the sample lake, read from the file a person gets and held to the sample's own data: the raster as
// gdal_translate prints it, the shore and the closure as ogr2ogr prints them, places through gdaltransform (PROJ).
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "castplan/geo/geodesic.hpp"
#include "castplan/geo/planar.hpp"
#include "cli/sample_lake.hpp"

using namespace castplan::programs;
using castplan::Geometry;
using castplan::LonLat;
using castplan::Metres;
using castplan::PreparedShape;
using castplan::XY;
using nlohmann::json;

namespace {

json spots_of(const Scratch& scratch, const std::string& options) {
  return sample_file(scratch, "spots.geojson", options);
}

struct Cast {
  const json& properties;
  XY boat, landing;
};

std::vector<Cast> casts_of(const Scratch& scratch, const json& spots) {
  std::vector<LonLat> places;
  for (const json& spot : spots) {
    places.push_back(lonlat(spot["geometry"]["coordinates"]));
    places.push_back(lonlat(spot["properties"]["target"]));
  }
  const std::vector<XY> at = on_grid(scratch, places);
  std::vector<Cast> casts;
  for (std::size_t i = 0; i < spots.size(); ++i) {
    casts.push_back({spots[i]["properties"], at[2 * i], at[2 * i + 1]});
  }
  return casts;
}

}  // namespace

TEST_CASE("sample lake: each printed score is the product of what is printed beside it") {
  const Scratch scratch;
  const json spots = spots_of(scratch, "");
  REQUIRE(spots.size() >= 30);
  for (const json& spot : spots) {
    const json& properties = spot["properties"];
    INFO(properties["id"]);
    double product = 1, weights = 0;
    for (const json& why : properties["why"]) {
      product *= std::pow(why["suitability"].get<double>(), why["weight"].get<double>());
      weights += why["weight"].get<double>();
    }
    CHECK(properties["score"].get<double>() == Approx(product).margin(0.002));
    CHECK(weights == Approx(1).margin(1e-9));
  }
}

TEST_CASE("sample lake: an id names one spot, and a spot names features that are there") {
  const Scratch scratch;
  const json spots = spots_of(scratch, "");
  std::set<std::string> known, seen;
  const json features = json_in(scratch.path("plan/features.geojson"))["features"];
  for (const json& feature : features) known.insert(feature["id"].get<std::string>());
  for (const json& spot : spots) {
    CHECK(seen.insert(spot["id"].get<std::string>()).second);
    CHECK(spot["id"] == spot["properties"]["id"]);
    for (const json& id : spot["properties"]["feature_ids"]) CHECK(known.count(id.get<std::string>()) == 1);
    CHECK(spot["properties"]["kinds"].size() <= spot["properties"]["feature_ids"].size());
  }
}

TEST_CASE("sample lake: bearing and cast are PROJ's geodesic between the printed places") {
  const Scratch scratch;
  for (const char* options : {"", " --cast 15m-16m"}) {
    for (const json& spot : spots_of(scratch, options)) {
      const auto cast =
          castplan::geodesic(lonlat(spot["geometry"]["coordinates"]), lonlat(spot["properties"]["target"]));
      const double length = spot["properties"]["cast_m"].get<double>();
      CHECK(length == Approx(cast.distance.value()).margin(0.5));
      const double turn = cast.bearing.value() - spot["properties"]["bearing_deg"].get<double>();
      CHECK(std::abs(std::remainder(turn, 360.0)) < 0.5);
      // six decimals of a degree are 0.08 m by 0.11 m here: either end may be off by half of that
      CHECK(length >= (*options == 0 ? 12 : 15) - 0.14);
      CHECK(length <= (*options == 0 ? 25 : 16) + 0.14);
    }
  }
}

TEST_CASE("sample lake: the boat floats, on open water, and the cast meets neither shore nor closure") {
  const Scratch scratch;
  const Raster raster(scratch);
  const auto shore = polygons_of("shoreline.gpkg");
  const PreparedShape water{Geometry{shore}}, shores{Geometry{rings_of(shore)}};
  const PreparedShape closed{Geometry{polygons_of("closure.shp")}};
  // the draft of the lake file, 0.45 m, or the one given; margin 0.6 m; the error of the lake file, 0.3 m
  for (const auto& [options, floats] : {std::pair("", 1.35), std::pair(" --draft 1.5m --date 2026-06-01", 2.4)}) {
    const json spots = spots_of(scratch, options);
    REQUIRE(spots.size() >= 30);
    for (const Cast& cast : casts_of(scratch, spots)) {
      INFO(cast.properties["id"] << options);
      CHECK(water.covers(cast.boat));
      CHECK(water.covers(cast.landing));
      CHECK_FALSE(shores.touches({cast.boat, cast.landing}));
      CHECK_FALSE(closed.covers(cast.boat));
      CHECK_FALSE(closed.touches({cast.boat, cast.landing}));
      // 0.08 m off in place, on a wall of 1:1
      CHECK(raster.depth(cast.boat) >= floats - 0.08);
      CHECK(cast.properties["boat_depth_m"].get<double>() >= floats);
      CHECK(cast.properties["boat_depth_m"].get<double>() == Approx(raster.depth(cast.boat)).margin(0.1));
      CHECK(raster.depth(cast.landing) > 0);
    }
  }
}

TEST_CASE("sample lake: the lure passes the depth that is said 3 to 6 m before it landed") {
  const Scratch scratch;
  const Raster raster(scratch);
  const json spots = spots_of(scratch, "");
  for (const Cast& cast : casts_of(scratch, spots)) {
    INFO(cast.properties["id"]);
    const double length = cast.properties["cast_m"].get<double>();
    const double said = cast.properties["target_depth_m"].get<double>();
    double closest = 1e9;
    for (double past = 3; past <= 6; past += 0.05) {
      const double depth = raster.depth(cast.landing + (cast.boat - cast.landing) * (past / length));
      closest = std::min(closest, std::abs(depth - said));
    }
    CHECK(closest < 0.1);
    CHECK(said <= 7);
    const double from = cast.properties["strike_m"][0].get<double>(), to = cast.properties["strike_m"][1].get<double>();
    CHECK(from > 0);
    CHECK(from <= length - 6);
    CHECK(to >= length - 3);
    CHECK(to <= length);
  }
}

TEST_CASE("sample lake: in each phase spots keep 150 m apart, two at most on an edge") {
  const Scratch scratch;
  const json spots = spots_of(scratch, " --spots 60");
  REQUIRE(json_in(scratch.path("plan/summary.json"))["lake"]["area_m2"].get<double>() > 40e4);
  std::map<std::string, int> on_edge;
  double nearest = 1e9;
  for (std::size_t i = 0; i < spots.size(); ++i) {
    const auto phase = spots[i]["properties"]["phase"].get<std::string>();
    CHECK(++on_edge[phase + spots[i]["properties"]["feature_ids"][0].get<std::string>()] <= 2);
    for (std::size_t k = 0; k < i; ++k) {
      if (spots[k]["properties"]["phase"] != phase) continue;
      const auto apart =
          castplan::geodesic(lonlat(spots[i]["geometry"]["coordinates"]), lonlat(spots[k]["geometry"]["coordinates"]));
      nearest = std::min(nearest, apart.distance.value());
    }
  }
  CHECK(nearest >= 149.8);  // six decimals again, and the grid's own scale of 0.9997
  CHECK(nearest < 160);     // the distance is what holds them apart
}

TEST_CASE("a closure outside its season keeps nobody out") {
  const Scratch scratch;
  const PreparedShape closed{Geometry{polygons_of("closure.shp")}};
  const auto inside = [&](const std::string& options) {
    const json spots = spots_of(scratch, " --spots 60" + options);
    const auto casts = casts_of(scratch, spots);
    return std::count_if(casts.begin(), casts.end(), [&](const Cast& cast) { return closed.covers(cast.boat); });
  };
  CHECK(inside("") == 0);
  CHECK(inside(" --date 2026-06-01") == 0);
  CHECK(inside(" --date 2026-07-10") == 0);  // the last day
  CHECK(inside(" --date 2026-07-11") > 0);
}
