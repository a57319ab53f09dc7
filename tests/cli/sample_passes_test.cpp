// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// The passes of the sample lake, read from the file a person gets and held to the sample's own data as other programs
// read them; lengths are PROJ's geodesics, crossings GEOS'.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "castplan/geo/geodesic.hpp"
#include "cli/sample_lake.hpp"

using namespace castplan::programs;
using castplan::Geometry;
using castplan::Line;
using castplan::LonLat;
using castplan::Metres;
using castplan::PreparedShape;
using castplan::XY;
using nlohmann::json;

namespace {

json passes_of(const Scratch& scratch, const std::string& options) {
  return sample_file(scratch, "passes.geojson", options);
}

/// The lanes on the raster's grid, in the order of the file.
std::vector<Line> lanes_of(const Scratch& scratch, const json& passes) {
  std::vector<LonLat> places;
  for (const json& pass : passes) {
    for (const json& place : pass["geometry"]["coordinates"]) places.push_back(lonlat(place));
  }
  const std::vector<XY> at = on_grid(scratch, places);
  std::vector<Line> lanes;
  auto next = at.begin();
  for (const json& pass : passes) {
    const auto count = static_cast<std::ptrdiff_t>(pass["geometry"]["coordinates"].size());
    lanes.emplace_back(next, next + count);
    next += count;
  }
  return lanes;
}

Geometry shape_of(const Scratch& scratch, const json& feature) {
  std::vector<LonLat> places;
  const json& geometry = feature["geometry"];
  const json parts =
      geometry["type"] == "LineString" ? json::array({geometry["coordinates"]}) : geometry["coordinates"];
  castplan::Lines lines;
  for (const json& part : parts) {
    for (const json& ring : geometry["type"] == "MultiPolygon" ? part : json::array({part})) {
      places.clear();
      for (const json& place : ring) places.push_back(lonlat(place));
      lines.push_back(on_grid(scratch, places));
    }
  }
  return lines;
}

}  // namespace

TEST_CASE("sample lake: lanes lie on open water that floats the boat, and meet neither shore nor closure nor danger") {
  const Scratch scratch;
  const Raster raster(scratch);
  const auto shore = polygons_of("shoreline.gpkg");
  const PreparedShape water{Geometry{shore}}, shores{Geometry{rings_of(shore)}};
  const PreparedShape closed{Geometry{polygons_of("closure.shp")}};
  for (const auto& [options, floats] : {std::pair("", 1.35), std::pair(" --draft 1.5m --date 2026-06-01", 2.4)}) {
    const json passes = passes_of(scratch, options);
    REQUIRE(passes.size() >= 20);
    std::vector<PreparedShape> dangers;
    const json features = json_in(scratch.path("plan/features.geojson"))["features"];
    for (const json& feature : features) {
      if (feature["properties"]["kind"] == "hazard" &&
          feature["geometry"]["type"].get<std::string>().find("Polygon") != std::string::npos) {
        dangers.emplace_back(shape_of(scratch, feature));
      }
    }
    CHECK_FALSE(dangers.empty());
    const auto lanes = lanes_of(scratch, passes);
    for (std::size_t i = 0; i < lanes.size(); ++i) {
      const json& p = passes[i]["properties"];
      INFO(p["id"] << options);
      CHECK_FALSE(shores.touches(lanes[i]));
      CHECK_FALSE(closed.touches(lanes[i]));
      double least = 1e9, most = 0;
      for (const XY at : castplan::resampled(lanes[i], Metres(1))) {
        CHECK(water.covers(at));
        least = std::min(least, raster.depth(at));
        most = std::max(most, raster.depth(at));
        for (const PreparedShape& danger : dangers) CHECK(danger.distance_to(at) >= Metres(9.7));
      }
      CHECK(least >= floats - 0.08);  // 0.08 m off in place, on a wall of 1:1
      CHECK(p["boat_depth_m"][0].get<double>() == Approx(least).margin(0.1));
      CHECK(p["boat_depth_m"][1].get<double>() == Approx(most).margin(0.1));
    }
  }
}

TEST_CASE("sample lake: a lane is one simple line, as long as PROJ says, with its score, casts and minutes") {
  const Scratch scratch;
  const json passes = passes_of(scratch, "");
  std::set<std::string> known, seen;
  const json features = json_in(scratch.path("plan/features.geojson"))["features"];
  for (const json& feature : features) known.insert(feature["id"].get<std::string>());
  for (const json& pass : passes) {
    const json& p = pass["properties"];
    INFO(p["id"]);
    CHECK(seen.insert(pass["id"].get<std::string>()).second);
    CHECK(pass["geometry"]["type"] == "LineString");
    const json& places = pass["geometry"]["coordinates"];
    REQUIRE(places.size() >= 2);
    double length = 0;
    for (std::size_t i = 1; i < places.size(); ++i) {
      length += castplan::geodesic(lonlat(places[i - 1]), lonlat(places[i])).distance.value();
    }
    CHECK(p["length_m"].get<double>() == Approx(length).margin(0.011));
    CHECK(p["casts"].get<int>() == 1 + static_cast<int>(length / 10));
    CHECK(p["minutes"].get<double>() > p["casts"].get<int>() * 0.5);
    double product = 1, weights = 0;
    for (const json& why : p["why"]) {
      product *= std::pow(why["suitability"].get<double>(), why["weight"].get<double>());
      weights += why["weight"].get<double>();
      CHECK(why["source"].get<std::string>().find("mean of") != std::string::npos);
    }
    CHECK(p["score"].get<double>() == Approx(product).margin(0.002));
    CHECK(weights == Approx(1).margin(1e-9));
    for (const json& id : p["feature_ids"]) CHECK(known.count(id.get<std::string>()) == 1);
  }
  // GEOS' own words for simple, through another program
  const Result simple =
      run("ogrinfo -ro -q -dialect sqlite -sql 'select count(*) as n from passes where "
          "ST_IsSimple(geometry) and ST_IsValid(geometry)' " +
          scratch.path("plan/passes.geojson"));
  CHECK(simple.text.find("n (Integer) = " + std::to_string(passes.size())) != std::string::npos);
}

TEST_CASE("sample lake: the edge that a lane follows lies on the side that is said, a cast away, and wind is met") {
  const Scratch scratch;
  for (const double from : {30.0, 230.0}) {
    const json passes = passes_of(
        scratch, " --water-temp 66F --trend rising --wind '5 m/s from " + std::to_string(static_cast<int>(from)) + "'");
    REQUIRE(passes.size() >= 5);
    const auto lanes = lanes_of(scratch, passes);
    const json features = json_in(scratch.path("plan/features.geojson"))["features"];
    for (std::size_t i = 0; i < lanes.size(); ++i) {
      const json& p = passes[i]["properties"];
      INFO(p["id"]);
      const auto& first = passes[i]["geometry"]["coordinates"].front();
      const auto& last = passes[i]["geometry"]["coordinates"].back();
      const double heading = castplan::geodesic(lonlat(first), lonlat(last)).bearing.value();
      CHECK(std::cos((heading - from) * M_PI / 180) > -0.01);
      const auto edge = std::find_if(features.begin(), features.end(),
                                     [&](const json& feature) { return feature["id"] == p["feature_ids"][0]; });
      REQUIRE(edge != features.end());
      castplan::Points on_edge;
      const Geometry shape = shape_of(scratch, *edge);
      for (const Line& line : std::get<castplan::Lines>(shape)) {
        const Line fine = castplan::resampled(line, Metres(2));
        on_edge.insert(on_edge.end(), fine.begin(), fine.end());
      }
      const Line lane = castplan::resampled(lanes[i], Metres(4));
      for (std::size_t k = 1; k < lane.size(); ++k) {
        const XY middle = (lane[k - 1] + lane[k]) * 0.5;
        const XY nearest = *std::min_element(on_edge.begin(), on_edge.end(),
                                             [&](XY a, XY b) { return distance(a, middle) < distance(b, middle); });
        CHECK(distance(nearest, middle) >= Metres(6));
        CHECK(distance(nearest, middle) <= Metres(25));
        const double side = castplan::cross(lane[k] - lane[k - 1], nearest - middle);
        CHECK((side > 0) == (p["cast_side"] == "left"));
      }
    }
  }
}
