// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <string>

#include "castplan/geo/geodesic.hpp"
#include "castplan/write/text.hpp"
#include "support/plans.hpp"
#include "support/programs.hpp"

using namespace castplan;
using nlohmann::json;

namespace {

// Calls back for every position of a geometry.
template <class Visit>
void each_position(const json& coordinates, const Visit& visit) {
  if (coordinates.at(0).is_number()) {
    visit(coordinates);
  } else {
    for (const json& part : coordinates) each_position(part, visit);
  }
}

std::vector<json> polygons_of(const json& geometry) {
  if (geometry["type"] == "Polygon") return {geometry["coordinates"]};
  if (geometry["type"] == "MultiPolygon") return geometry["coordinates"].get<std::vector<json>>();
  return {};
}

double shoelace(const json& ring) {
  double sum = 0.0;
  for (std::size_t at = 1; at < ring.size(); ++at) {
    const double x0 = ring[at - 1][0].get<double>() - ring[0][0].get<double>();
    const double x1 = ring[at][0].get<double>() - ring[0][0].get<double>();
    const double y0 = ring[at - 1][1].get<double>() - ring[0][1].get<double>();
    const double y1 = ring[at][1].get<double>() - ring[0][1].get<double>();
    sum += x0 * y1 - x1 * y0;
  }
  return sum / 2.0;
}

const json& member(const json& collection, const std::string& kind) {
  for (const json& feature : collection["features"]) {
    if (feature["properties"]["kind"] == kind) return feature;
  }
  throw std::runtime_error("no " + kind);
}

// RFC 7946, rule by rule; sections in brackets.
void hold_to_rfc_7946(const std::string& text) {
  const json collection = json::parse(text);
  CHECK(collection["type"] == "FeatureCollection");                                                           // 3.3
  CHECK_FALSE(collection.contains("crs"));                                                                    // 4
  for (const char* name : {"coordinates", "geometry", "properties"}) CHECK_FALSE(collection.contains(name));  // 7.1
  std::set<std::string> ids;
  for (const json& feature : collection["features"]) {
    CHECK(feature["type"] == "Feature");  // 3.2
    CHECK(feature["properties"].is_object());
    CHECK(feature["id"].is_string());
    CHECK(feature["properties"]["id"] == feature["id"]);
    CHECK(ids.insert(feature["id"].get<std::string>()).second);
    const json& geometry = feature["geometry"];
    each_position(geometry["coordinates"], [&](const json& place) {
      REQUIRE(place.size() == 2);  // 3.1.1
      CHECK(std::abs(place[0].get<double>()) <= 180.0);
      CHECK(std::abs(place[1].get<double>()) <= 90.0);
      const json& box = collection["bbox"];  // 5
      const double lon = place[0].get<double>(), west = box[0].get<double>(), east = box[2].get<double>();
      CHECK((west <= east ? lon >= west && lon <= east : lon >= west || lon <= east));
      CHECK((place[1] >= box[1] && place[1] <= box[3]));
    });
    for (const json& polygon : polygons_of(geometry)) {  // 3.1.6
      for (std::size_t at = 0; at < polygon.size(); ++at) {
        REQUIRE(polygon[at].size() >= 4);
        CHECK(polygon[at].front() == polygon[at].back());
        CHECK((shoelace(polygon[at]) > 0.0) == (at == 0));
        for (std::size_t i = 1; i < polygon[at].size(); ++i) CHECK(polygon[at][i] != polygon[at][i - 1]);
      }
    }
  }
}

// Every number inside coordinates, bbox, deepest, top and target has exactly six decimals.
void hold_to_six_decimals(const std::string& text) {
  const std::regex places(R"re("(coordinates|bbox|deepest|top|target)": (\[[^a-z"{}]*\]))re");
  const std::regex number(R"(-?\d+(\.\d+)?)");
  int seen = 0;
  for (std::sregex_iterator at(text.begin(), text.end(), places), end; at != end; ++at) {
    const std::string list = (*at)[2];
    for (std::sregex_iterator one(list.begin(), list.end(), number); one != end; ++one, ++seen) {
      CHECK(std::regex_match(one->str(), std::regex(R"(-?\d{1,3}\.\d{6})")));
    }
  }
  CHECK(seen > 4);
  CHECK_FALSE(std::regex_search(text, std::regex(R"(: ?\[?-?\d+(\.\d+)?[eE][+-]?\d)")));  // no exponent
}

LonLat place(const json& pair) { return {Longitude{pair[0].get<double>()}, Latitude{pair[1].get<double>()}}; }

}  // namespace

TEST_CASE("features, spots and passes hold to RFC 7946") {
  for (const double latitude : {45.5, -33.0, 0.0, 84.9}) {
    sample::Options options;
    options.centre.lat.degrees = latitude;
    const Plan plan = sample::plan(options);
    CAPTURE(latitude);
    hold_to_rfc_7946(features_geojson(plan));
    hold_to_rfc_7946(spots_geojson(plan));
    hold_to_rfc_7946(passes_geojson(plan));
  }
}

TEST_CASE("places have six decimals") {
  const Plan plan = sample::plan();
  hold_to_six_decimals(features_geojson(plan));
  hold_to_six_decimals(spots_geojson(plan));
  hold_to_six_decimals(passes_geojson(plan));
}

TEST_CASE("each kind has the properties that the contract names, in its decimals") {
  const std::string text = features_geojson(sample::plan());
  const json all = json::parse(text);
  CHECK(all["features"].size() == kinds().size());
  const json pool = member(all, "pool")["properties"];
  CHECK(pool["name"] == "Heron Hole");
  CHECK(pool["confidence"] == 0.8);
  CHECK(pool["sill_depth_m"].is_null());
  // the pool's deepest place is the projection's centre
  CHECK(pool["deepest"] == json::array({-40.0, 45.5}));
  CHECK(text.find("\"volume_m3\": 90000.0,") != std::string::npos);
  CHECK(text.find("\"max_depth_m\": 6.00,") != std::string::npos);
  const json edge = member(all, "drop-off")["properties"];
  CHECK(edge["grade_pct"] == 22.0);
  CHECK(edge["faces_deg"] == 270.0);
  CHECK(edge["length_m"] == 126.49);
  const json weeds = member(all, "weed-line");
  CHECK(weeds["geometry"]["type"] == "MultiLineString");
  CHECK(weeds["properties"]["edge"] == "outside");
  CHECK(weeds["properties"]["source"] == "predicted");
  CHECK(weeds["properties"]["density"] == 0.75);
  CHECK(weeds["properties"]["depth_low_m"] == 2.9);
  CHECK(weeds["properties"]["depth_high_m"] == 3.2);
  CHECK(weeds["properties"]["deepest_plant_m"].is_null());
  CHECK(weeds["properties"]["at_break"] == true);
  CHECK(weeds["properties"]["bare_above"].is_null());
  CHECK(weeds["properties"]["lowered_by"] == json::array({"steepness", "rock"}));
  CHECK(weeds["properties"]["not_assessed"] == json::array({"level swing"}));
  REQUIRE(weeds["properties"]["points"].size() == 1);
  CHECK(weeds["properties"]["turns"].empty());
  REQUIRE(weeds["properties"]["gaps"].size() == 1);
  const json gap = weeds["properties"]["gaps"][0];
  CHECK(gap["from"] == weeds["properties"]["points"][0]);
  CHECK(gap["length_m"] == 22.36);
  CHECK(gap["why"] == "rock");
  CHECK(member(all, "hump")["properties"]["base_depth_m"] == 4.1);
  const json saddle = member(all, "saddle");
  CHECK(saddle["geometry"]["type"] == "Point");
  CHECK(saddle["properties"]["depth_m"] == 3.3);
  CHECK(saddle["properties"]["relief_m"] == 1.42);
  CHECK(saddle["properties"]["joins"] == json::array({"hump-1", "shore"}));
  const json flat = member(all, "flat");
  CHECK(flat["geometry"]["coordinates"].size() == 2);  // with its hole
  CHECK(flat["properties"]["area_m2"] == 10053.1);
  CHECK(flat["properties"]["edge_m"] == 188.5);
  const json channel = member(all, "channel");
  CHECK(channel["geometry"]["type"] == "LineString");
  CHECK(channel["properties"]["length_m"] == 124.07);
  CHECK(channel["properties"]["depth_m"] == 4.9);
  CHECK(channel["properties"]["bends"].size() == 1);
  CHECK(channel["properties"]["near_bank"].empty());
  CHECK(pool["neighbours"].size() == 2);
  CHECK(pool["neighbours"][0] == member(all, "drop-off")["id"]);
  CHECK(saddle["properties"]["neighbours"].empty());
  const json point = member(all, "point");
  CHECK(point["geometry"]["type"] == "LineString");
  CHECK(point["properties"]["depth_m"] == 2.7);
  CHECK(point["properties"]["relief_m"] == 1.6);
  CHECK(point["properties"]["faces_deg"] == 1.2);
  CHECK(member(all, "inside-turn")["properties"]["faces_deg"] == 90.0);
  CHECK(member(all, "narrows")["geometry"]["type"] == "Point");
  CHECK(member(all, "narrows")["properties"]["width_m"] == 84.5);
  const json bay = member(all, "bay");
  CHECK(bay["geometry"]["type"] == "Polygon");
  CHECK(bay["properties"]["area_m2"] == 1248.6);
  REQUIRE(bay["properties"]["mouth"].size() == 2);
  CHECK(bay["properties"]["mouth"][0].size() == 2);
  CHECK(bay["properties"]["mouth_m"] == 40.0);
  CHECK(bay["properties"]["mean_depth_m"] == 1.25);
  CHECK(bay["properties"]["faces_deg"] == 270.0);
  CHECK(bay["properties"]["fetch_m"] == 350.5);
  CHECK(member(all, "wood")["geometry"]["type"] == "MultiPoint");
  CHECK(member(all, "wood")["properties"]["source_file"] == "wood.shp");
  CHECK(member(all, "inflow")["properties"]["depth_m"].is_null());
  CHECK(member(all, "inflow")["properties"]["attribute"] == "cool");
  CHECK(member(all, "hazard")["properties"]["source_file"].is_null());
  CHECK(member(all, "closure")["properties"]["from"] == "04-01");
  CHECK(member(all, "launch")["geometry"]["type"] == "Point");
}

TEST_CASE("a spot's bearing and cast are the geodesic between its printed places") {
  // Source of the geodesic: PROJ's `geod`, run as a program on the printed coordinates.
  const json spots = json::parse(spots_geojson(sample::plan()));
  REQUIRE(spots["features"].size() == 3);
  for (const json& spot : spots["features"]) {
    const json& from = spot["geometry"]["coordinates"];
    const json& to = spot["properties"]["target"];
    char line[200];
    std::snprintf(line, sizeof line, "echo '%.6f %.6f %.6f %.6f' | geod -I +ellps=WGS84 -f '%%.6f' -F '%%.6f'",
                  from[1].get<double>(), from[0].get<double>(), to[1].get<double>(), to[0].get<double>());
    const auto result = programs::run(line);
    REQUIRE(result.code == 0);
    double bearing = 0, back = 0, metres = 0;
    REQUIRE(std::sscanf(result.text.c_str(), "%lf %lf %lf", &bearing, &back, &metres) == 3);
    CHECK(spot["properties"]["bearing_deg"].get<double>() == Approx(std::fmod(bearing + 360.0, 360.0)).margin(0.051));
    CHECK(spot["properties"]["cast_m"].get<double>() == Approx(metres).margin(0.0051));
    CHECK(spot["properties"]["approach_deg"] == 0.0);  // 359.97 to one decimal
  }
}

TEST_CASE("the printed score is the product of the printed suitabilities to the power of their weights") {
  Plan plan = sample::plan();
  // near zero, four decimals of a suitability cannot give the score back
  Spot& last = plan.phases[1].spots[0];
  last.why = {{"depth", 1, "m", 0.00034, 0.3333333, "x"},
              {"edge", 2, "%", 0.9, 0.3333333, "x"},
              {"cover", 3, "m", 0.8, 0.3333334, "x"}};
  last.score = std::cbrt(0.00034 * 0.9 * 0.8);
  const json spots = json::parse(spots_geojson(plan));
  for (const json& spot : spots["features"]) {
    double product = 1.0, weights = 0.0;
    for (const json& why : spot["properties"]["why"]) {
      product *= std::pow(why["suitability"].get<double>(), why["weight"].get<double>());
      weights += why["weight"].get<double>();
    }
    CHECK(spot["properties"]["score"].get<double>() == Approx(product).margin(0.002));  // contract.md
    CHECK(weights == Approx(1.0).margin(0.0005));
  }
}

TEST_CASE("spots come by phase, then rank, with the contract's properties") {
  const json spots = json::parse(spots_geojson(sample::plan()));
  std::vector<std::string> order;
  for (const json& spot : spots["features"]) {
    const json& p = spot["properties"];
    order.push_back(p["phase"].get<std::string>() + std::to_string(p["rank"].get<int>()));
    for (const char* name : {"id", "phase", "rank", "score", "boat_depth_m", "hold", "approach_deg", "target",
                             "bearing_deg", "cast_m", "strike_m", "target_depth_m", "kinds", "feature_ids", "why",
                             "presentations", "casts", "minutes", "cautions"}) {
      CHECK(p.contains(name));
    }
    CHECK(p["strike_m"] == json::array({4.0, 14.0}));
    CHECK(p["presentations"][0]["run_depth_m"] == json::array({1.5, 3.0}));
    CHECK(p["rank_low"].get<int>() <= p["rank"].get<int>());
    CHECK(p["rank_high"].get<int>() >= p["rank"].get<int>());
  }
  CHECK(order == std::vector<std::string>{"pre-spawn1", "pre-spawn2", "early-summer1"});
}

TEST_CASE("passes come by phase, then rank, with the contract's properties") {
  Plan plan = sample::plan();
  plan.phases[1].passes = {sample::pass("early-summer", 1, {{-20, 100}, {40, 110}}, plan.lake->projection),
                           sample::pass("early-summer", 2, {{-20, 140}, {40, 150}}, plan.lake->projection)};
  const json passes = json::parse(passes_geojson(plan));
  CHECK(passes["metadata"] == json::parse(summary_json(plan)));
  std::vector<std::string> order;
  for (const json& pass : passes["features"]) {
    CHECK(pass["geometry"]["type"] == "LineString");
    const json& p = pass["properties"];
    CHECK(p["id"] == pass["id"]);
    order.push_back(p["phase"].get<std::string>() + std::to_string(p["rank"].get<int>()));
    for (const char* name : {"id", "phase", "rank", "score", "why", "length_m", "casts", "minutes", "cast_side",
                             "boat_depth_m", "target_depth_m", "kinds", "feature_ids", "cautions"}) {
      CHECK(p.contains(name));
    }
    CHECK(p["cast_side"] == "right");
    CHECK(p["boat_depth_m"] == json::array({4.1, 4.9}));
    CHECK(p["target_depth_m"] == json::array({2.6, 3.4}));
    double product = 1.0;
    for (const json& why : p["why"]) {
      product *= std::pow(why["suitability"].get<double>(), why["weight"].get<double>());
    }
    CHECK(p["score"].get<double>() == Approx(product).margin(0.002));  // contract.md
  }
  CHECK(order == std::vector<std::string>{"pre-spawn1", "early-summer1", "early-summer2"});
}

TEST_CASE("what collapses in rounding is left out, its properties stay") {
  Plan plan = sample::plan();
  plan.features[0].geometry = Polygons{{sample::circle({0, 0}, 0.01), {}}};
  plan.features[1].geometry = Lines{{{10, 10}, {10.001, 10}}};
  plan.features[2].geometry = Polygons{{sample::circle({0, 0}, 50), {sample::clockwise(sample::circle({0, 0}, 0.01))}}};
  const json all = json::parse(features_geojson(plan));
  CHECK(all["features"][0]["geometry"].is_null());
  CHECK(all["features"][0]["properties"]["max_depth_m"] == 6.0);
  CHECK(all["features"][1]["geometry"].is_null());
  CHECK(all["features"][2]["geometry"]["coordinates"].size() == 1);
}

TEST_CASE("rings given in the other order, or open, are put right") {
  Plan plan = sample::plan();
  Ring open = sample::clockwise(sample::circle({0, 0}, 100));
  open.pop_back();
  plan.features[0].geometry = Polygons{{open, {sample::circle({0, 0}, 20)}}};
  hold_to_rfc_7946(features_geojson(plan));
}

TEST_CASE("GDAL reads both files back, with ids, places and counts") {
  const programs::Scratch scratch;
  const Plan plan = sample::plan();
  const std::string features = scratch.write("features.geojson", features_geojson(plan));
  const std::string spots = scratch.write("spots.geojson", spots_geojson(plan));
  const auto info = programs::run("ogrinfo -ro -al -so " + features);
  REQUIRE(info.code == 0);
  CHECK(info.text.find("Feature Count: " + std::to_string(kinds().size())) != std::string::npos);
  CHECK(info.text.find("Warning") == std::string::npos);
  CHECK(info.text.find("GEOGCRS[\"WGS 84\"") != std::string::npos);
  // the reader's own validity check of what it read; a count of rows that are valid, by GEOS
  const auto valid = programs::run(
      "ogrinfo -ro -q -dialect sqlite -sql "
      "'select count(*) as n from features where ST_IsValid(geometry)' " +
      features);
  CHECK(valid.text.find("n (Integer) = " + std::to_string(kinds().size())) != std::string::npos);
  const auto read = programs::run("ogr2ogr -f CSV /vsistdout/ -lco GEOMETRY=AS_XY -select id,rank " + spots);
  REQUIRE(read.code == 0);
  const json told = json::parse(spots_geojson(plan));
  for (const json& spot : told["features"]) {
    CHECK(read.text.find(spot["id"].get<std::string>()) != std::string::npos);
  }
}

TEST_CASE("two calls give the same bytes, with a line end") {
  const Plan plan = sample::plan();
  CHECK(features_geojson(plan) == features_geojson(plan));
  CHECK(spots_geojson(plan) == spots_geojson(plan));
  CHECK(features_geojson(plan) == features_geojson(sample::plan()));
  CHECK(features_geojson(plan).back() == '\n');
  CHECK(json::parse(features_geojson(plan))["metadata"] == json::parse(summary_json(plan)));
}

TEST_CASE("places come within half of the last decimal of the projection's own") {
  const Plan plan = sample::plan();
  const json all = json::parse(features_geojson(plan));
  const LonLat launch = place(member(all, "launch")["geometry"]["coordinates"]);
  const LonLat truth = plan.lake->projection.to_lonlat({0, 300});
  CHECK(std::abs(launch.lon.degrees - truth.lon.degrees) <= 0.5000001e-6);
  CHECK(std::abs(launch.lat.degrees - truth.lat.degrees) <= 0.5000001e-6);
}
