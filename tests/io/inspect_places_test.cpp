// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "castplan/io/inspect.hpp"
#include "castplan/io/soundings.hpp"
#include "io/inspecting.hpp"

using namespace castplan;
using namespace castplan::rasters;
using Catch::Matchers::Contains;

TEST_CASE("places that cannot be right") {
  const programs::Scratch scratch;
  const auto placed = [&](const std::string& name, const std::string& crs, std::array<double, 6> transform) {
    Spec spec;
    spec.crs = crs;
    spec.transform = transform;
    write(scratch.path(name), spec, [](double c, double r) { return 9 - std::hypot(c - 60, r - 50) / 8; });
    return inspect(of(scratch.path(name)));
  };
  CHECK(found(placed("swapped.tif", "EPSG:4326", {45.5, 1e-4, 0, -112.2, 0, -1e-4}), "swapped").severity ==
        Severity::error);
  CHECK(found(placed("metres.tif", "EPSG:4326", {5e5, 5, 0, 5e6, 0, -5}), "off-earth").severity == Severity::error);
  CHECK(count(placed("zero.tif", "EPSG:4326", {0.1, 1e-4, 0, 0.1, 0, -1e-4}), "near-zero") == 1);
  // EPSG: area of use of 26915 (NAD83 / UTM 15N) is 96 W to 90 W; x = 1.1e6 lies near 85.4 W
  const Inspection outside = placed("zone.tif", "EPSG:26915", {1.1e6, 5, 0, 5e6, 0, -5});
  CHECK(count(outside, "outside-crs-area") == 1);
  const auto moved =
      programs::run("echo 1100300 4999750 | gdaltransform -s_srs EPSG:26915 -t_srs EPSG:4326 -output_xy");
  CHECK(outside.files[0].centre->lon.degrees == Approx(std::stod(moved.text)).margin(1e-6));
  const Inspection bare = placed("bare.tif", "", {5e5, 5, 0, 5e6, 0, -5});
  CHECK_THAT(found(bare, "no-crs").mend, Contains("--crs"));
  // web mercator at 45.5 degrees stretches by 1 / cos(lat) = 1.43 (sphere)
  CHECK_THAT(found(placed("web.tif", "EPSG:3857", {-4363723, 5, 0, 5701583, 0, -5}), "crs-scale").text,
             Contains("1.43"));
}

TEST_CASE("a datum that is only known to some metres is said to be") {
  const programs::Scratch scratch;
  Spec spec;
  spec.crs = "EPSG:26715";  // NAD27 / UTM 15N
  spec.transform = {5e5, 5, 0, 5e6, 0, -5};
  write(scratch.path("old.tif"), spec, [](double c, double r) { return 9 - std::hypot(c - 60, r - 50) / 8; });
  const Inspection in = inspect(of(scratch.path("old.tif")));
  // projinfo: the first candidate for the place that keeps the datum and whose grids are there
  const auto list = programs::run(
      "projinfo -s EPSG:26715 -t EPSG:4326 --summary --grid-check discard_missing --spatial-test intersects --bbox "
      "-93,45.1,-92.9,45.2 | grep -v -i ballpark | grep -m1 ' m,'");
  CHECK(in.files[0].centre->lon.degrees == Approx(-93).margin(0.1));
  CHECK(in.files[0].centre->lat.degrees == Approx(45.15).margin(0.1));
  REQUIRE(in.files[0].crs_accuracy);
  const double accuracy = in.files[0].crs_accuracy->value();
  CHECK_THAT(list.text, Contains(std::to_string(static_cast<int>(accuracy)) + " m,"));
  CHECK(count(in, "crs-accuracy") == (accuracy >= 5 ? 1 : 0));
}

TEST_CASE("layers: records, fields, and what is wrong with them") {
  const programs::Scratch scratch;
  const std::string path =
      geojson(scratch, "contours.geojson",
              {{kSquare, "0"}, {kBowTie, "3"}, {kSquare, "null"}, {"null", "6"}, {kSquare, "\"9 ft\""}});
  const Inspection in = inspect(of(path));
  const LayerFacts& layer = in.files[0].layers.front();
  CHECK(layer.records == 5);
  CHECK(layer.depth_field == "depth");
  const FieldFacts& depth = layer.fields.front();
  CHECK(*depth.low == 0);
  CHECK(*depth.high == 9);  // a text with its unit
  CHECK(depth.values == 4);
  CHECK_THAT(found(in, "invalid-geometry").text, Contains("1 of 5"));  // a bow tie; OGC simple features
  CHECK_THAT(found(in, "no-geometry").text, Contains("1 of 5"));
  CHECK_THAT(found(in, "depth-missing").text, Contains("1 of 5"));
  CHECK(in.files[0].centre->lat.degrees == Approx(45.5));

  REQUIRE(programs::run("ogr2ogr " + scratch.path("bare.shp") + " " + geojson(scratch, "one.geojson", {{kSquare, "1"}}))
              .code == 0);
  std::filesystem::remove(scratch.path("bare.prj"));
  CHECK(found(inspect(of(scratch.path("bare.shp"))), "no-crs").severity == Severity::error);
  CHECK(found(inspect(of(geojson(scratch, "none.geojson", {}))), "empty").severity == Severity::error);
}

TEST_CASE("a lake file is looked at with all that it names") {
  const programs::Scratch scratch;
  changed_lake(scratch, "lake.tif", as_it_is);
  geojson(scratch, "shore.geojson", {{kSquare, "0"}});
  // the same square 1 degree north: 111.1 km away (a degree of the meridian at 46 N, WGS 84: GeographicLib by PROJ)
  std::string far = kSquare;
  for (std::size_t at = 0; (at = far.find("45.", at)) != std::string::npos;) far.replace(at, 3, "46.");
  geojson(scratch, "far.geojson", {{far, "0"}});
  const auto lake = [&](const std::string& text) {
    return inspect(of(scratch.write("lake.toml", "name = \"Heron Mere\"\n[depth]\nraster = \"lake.tif\"\n" + text)));
  };
  const Inspection sound = lake("surveyed = 2015\nerror = \"0.3 m\"\nsource = \"a survey\"\n");
  for (const Finding& one : sound.findings) {
    INFO(one.code << ": " << one.text);
    CHECK(one.severity == Severity::note);
  }
  CHECK(sound.files.size() == 2);
  const Inspection old = lake("surveyed = 1958\n[[structure]]\nfile = \"far.geojson\"\nkind = \"wood\"\n");
  CHECK_THAT(found(old, "old-survey").text, Contains("1958"));
  const auto away = programs::run("echo '45.5 -39.2 46.5 -39.2' | geod +ellps=WGS84 -I -f %.3f");
  char km[32];
  std::snprintf(km, sizeof km, "%.1f km", std::stod(away.text.substr(away.text.rfind('\t') + 1)) / 1000);
  CHECK_THAT(found(old, "no-overlap").text, Contains("far.geojson") && Contains(km));
  const Inspection missing = lake("[shoreline]\nfile = \"gone.shp\"\n");
  CHECK(found(missing, "unreadable").severity == Severity::error);
  CHECK(missing.findings.front().severity == Severity::error);  // errors first
  CHECK(missing.files.size() == 2);
  std::filesystem::remove(scratch.path("lake.tif"));
  CHECK_THAT(complaint([&] { static_cast<void>(lake("")); }), Contains("lake.tif"));
}

// A straight track on an even slope, with what a sounder brings home: one depth far too deep, one below zero, one place
// twice, one on land. Each is counted by hand.
TEST_CASE("soundings that grid would leave out are told, with and without a shoreline") {
  const programs::Scratch scratch;
  std::string rows = "lon,lat,depth_m\n";
  for (int i = 0; i < 60; ++i) {
    const double depth = i == 20 ? 45.0 : i == 40 ? -0.5 : 3 + 0.1 * i;
    rows += fmt::format("{:.6f},45.505,{:.2f}\n", -40.015 + 0.0001 * i, depth);
    if (i == 30) rows += fmt::format("{:.6f},45.505,{:.2f}\n", -40.015 + 0.0001 * i, depth);
  }
  rows += "-39.9,45.505,7\n";
  const std::string table = scratch.write("log.csv", rows);
  const Inspection bare = inspect(of(table));
  CHECK_THAT(found(bare, "spikes").text,
             Contains("1 of 62 soundings") && Contains("45.00 m deep at 45.5050 N, 40.0130"));
  CHECK_THAT(found(bare, "above-water").text, Contains("1 of 62"));
  CHECK_THAT(found(bare, "repeats").text, Contains("1 of 62"));
  CHECK(count(bare, "on-land") == 0);
  CHECK(count(bare, "outliers") == 0);

  geojson(scratch, "shore.geojson",
          {{R"({"type":"Polygon","coordinates":[[[-40.02,45.5],[-40,45.5],[-40,45.51],[-40.02,45.51],[-40.02,45.5]]]})",
            "0"}});
  geojson(scratch, "far.geojson",
          {{R"({"type":"Polygon","coordinates":[[[-41.02,45.5],[-41,45.5],[-41,45.51],[-41.02,45.51],[-41.02,45.5]]]})",
            "0"}});
  const auto lake = [&](const std::string& shore) {
    return inspect(of(scratch.write("lake.toml",
                                    "name = \"Heron Mere\"\n[depth]\n[[depth.soundings]]\nfile = "
                                    "\"log.csv\"\n[shoreline]\nfile = \"" +
                                        shore + "\"\n")));
  };
  const Inspection whole = lake("shore.geojson");
  CHECK_THAT(found(whole, "on-land").text, Contains("1 of 62"));
  CHECK(count(whole, "no-overlap") == 0);
  const Inspection apart = lake("far.geojson");
  CHECK_THAT(found(apart, "on-land").text, Contains("61 of 62"));  // all but the one below zero, which is told first
  CHECK_THAT(found(apart, "no-overlap").text, Contains("far.geojson") && Contains("log.csv"));
}

TEST_CASE("inspect names the field that the reader takes depths from") {
  const programs::Scratch scratch;
  // two units of one depth, as contour maps often hold them; 30 ft are 9.144 m
  const std::string path = scratch.write("contours.geojson", R"({"type":"FeatureCollection","features":[
    {"type":"Feature","properties":{"Depth_ft":10,"Depth_m":3.048},"geometry":{"type":"LineString","coordinates":[[-40,45],[-40,45.01]]}},
    {"type":"Feature","properties":{"Depth_ft":30,"Depth_m":9.144},"geometry":{"type":"LineString","coordinates":[[-40.1,45],[-40.1,45.01]]}}
    ]})");
  ContourOptions options;
  options.path = path;
  const DepthSource source = read_contours(options, Projection::geographic()).source;
  CHECK(source.deepest.value() == Approx(9.144));
  const Inspection looked = inspect(of(path));
  REQUIRE(looked.files.size() == 1);
  REQUIRE(looked.files[0].layers.size() == 1);
  CHECK(looked.files[0].layers[0].depth_field == source.columns.depth);
}
