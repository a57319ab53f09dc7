// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>
#include <string>

#include "castplan/write/text.hpp"
#include "support/plans.hpp"
#include "support/programs.hpp"

using namespace castplan;
using nlohmann::json;

namespace {

Plan plan_at(double longitude) {
  sample::Options options;
  options.centre = {Longitude{longitude}, Latitude{-17.0}};
  return sample::plan(options);
}

// The plan's first feature with another shape.
json shape_of(Plan plan, Geometry geometry) {
  plan.features.resize(1);
  plan.features[0].geometry = std::move(geometry);
  return json::parse(features_geojson(plan));
}

double shoelace(const json& ring) {
  double sum = 0.0;
  for (std::size_t at = 1; at < ring.size(); ++at) {
    const double x0 = ring[at - 1][0], x1 = ring[at][0], y0 = ring[at - 1][1], y1 = ring[at][1];
    sum += (x0 - ring[0][0].get<double>()) * (y1 - ring[0][1].get<double>()) -
           (x1 - ring[0][0].get<double>()) * (y0 - ring[0][1].get<double>());
  }
  return sum / 2.0;
}

double area(const json& geometry) {
  double sum = 0.0;
  const json polygons =
      geometry["type"] == "Polygon" ? json::array({geometry["coordinates"]}) : geometry["coordinates"];
  for (const json& polygon : polygons) {
    for (const json& ring : polygon) sum += shoelace(ring);
  }
  return sum;
}

}  // namespace

// RFC 7946, section 3.1.9: cut in two such that no part crosses; section 5.2: the box has west > east.
TEST_CASE("a shape across 180 is cut into parts, each on one side") {
  const Plan plan = plan_at(180.0);
  const json all = json::parse(features_geojson(plan));
  CHECK(all["bbox"][0].get<double>() > all["bbox"][2].get<double>());
  const json& pool = all["features"][0]["geometry"];
  REQUIRE(pool["type"] == "MultiPolygon");
  REQUIRE(pool["coordinates"].size() == 2);
  for (const json& polygon : pool["coordinates"]) {
    const bool east = polygon[0][0][0].get<double>() > 0.0;
    for (const json& ring : polygon) {
      CHECK(ring.front() == ring.back());
      for (const json& place : ring) CHECK((place[0].get<double>() > 0.0) == east);
    }
  }
  for (const json& place : all["features"][0]["properties"]["deepest"]) CHECK(std::isfinite(place.get<double>()));
}

TEST_CASE("cutting loses no area: the same shapes away from 180 have as much") {
  // a horseshoe open to the east, so that the cut gives three parts on one side, and a ring whose hole is cut too
  const Polygons horseshoe{
      {{{-100, -100}, {100, -100}, {100, -50}, {-50, -50}, {-50, 50}, {100, 50}, {100, 100}, {-100, 100}, {-100, -100}},
       {}}};
  const Polygons ring{{sample::circle({5, 3}, 100), {sample::clockwise(sample::circle({0, 0}, 40))}}};
  const Polygons hole_aside{{sample::circle({5, 3}, 100), {sample::clockwise(sample::circle({50, 0}, 20))}}};
  const Polygons on_the_line{{{{-50, 0}, {0, -50}, {50, 0}, {0, 50}, {-50, 0}}, {}}};
  const struct {
    Polygons shape;
    std::size_t parts;
  } rows[] = {{horseshoe, 3}, {ring, 2}, {hole_aside, 2}, {on_the_line, 2}};
  for (const auto& row : rows) {
    const json cut = shape_of(plan_at(180.0), row.shape)["features"][0]["geometry"];
    const json whole = shape_of(plan_at(170.0), row.shape)["features"][0]["geometry"];
    CHECK(whole["type"] == "Polygon");
    CHECK(cut["coordinates"].size() == row.parts);
    // both rounded to 1e-6 degree along a few hundred metres: 0.01 % of the area is far above that rounding
    CHECK(area(cut) == Approx(area(whole)).epsilon(1e-4));
    const std::string at_180 = shape_of(plan_at(-180.0), row.shape)["features"][0]["geometry"].dump();
    CHECK(at_180 == cut.dump());
  }
}

TEST_CASE("a line across 180 is cut at the meridian") {
  const json line = shape_of(plan_at(180.0), Lines{{{-50, 0}, {50, 10}, {-50, 20}}})["features"][0]["geometry"];
  REQUIRE(line["type"] == "MultiLineString");
  CHECK(line["coordinates"].size() == 3);
  for (const json& part : line["coordinates"]) {
    CHECK((std::abs(part.front()[0].get<double>()) == 180.0 || std::abs(part.back()[0].get<double>()) == 180.0));
  }
}

TEST_CASE("GEOS finds the cut shapes valid") {
  const programs::Scratch scratch;
  const std::string file = scratch.write("features.geojson", features_geojson(plan_at(180.0)));
  const auto valid = programs::run(
      "ogrinfo -ro -q -dialect sqlite -sql "
      "'select count(*) as n from features where ST_IsValid(geometry)' " +
      file);
  CHECK(valid.text.find("n (Integer) = " + std::to_string(kinds().size())) != std::string::npos);
}

TEST_CASE("a GPX longitude of exactly 180 is written as -180, and the bounds run over the meridian") {
  Plan plan = plan_at(180.0);
  const std::string text = waypoint_files(plan)[0].bytes;
  CHECK(text.find("lon=\"180.000000\"") == std::string::npos);
  CHECK(text.find("lon=\"-180.000000\"") != std::string::npos);  // the launch lies on the meridian
}
