// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "castplan/io/soundings.hpp"
#include "io/rasters.hpp"
#include "support/programs.hpp"

using namespace castplan;
using castplan::rasters::complaint;
using castplan::rasters::home;
using Catch::Matchers::Contains;

namespace {

std::string square(double half, double z = std::numeric_limits<double>::quiet_NaN()) {
  std::string out;
  for (const auto& [x, y] : {std::pair{-1, -1}, {1, -1}, {1, 1}, {-1, 1}, {-1, -1}}) {
    const LonLat at = home().to_lonlat({x * half, y * half});
    char text[96];
    if (std::isnan(z)) {
      std::snprintf(text, sizeof text, "%s[%.9f,%.9f]", out.empty() ? "" : ",", at.lon.degrees, at.lat.degrees);
    } else {
      std::snprintf(text, sizeof text, "%s[%.9f,%.9f,%g]", out.empty() ? "" : ",", at.lon.degrees, at.lat.degrees, z);
    }
    out += text;
  }
  return "[" + out + "]";
}

std::string line(const std::string& properties, const std::string& coordinates) {
  return R"({"type":"Feature","properties":{)" + properties + R"(},"geometry":{"type":"LineString","coordinates":)" +
         coordinates + "}}";
}

std::string area(const std::string& properties, const std::string& rings) {
  return R"({"type":"Feature","properties":{)" + properties + R"(},"geometry":{"type":"Polygon","coordinates":[)" +
         rings + "]}}";
}

struct Layers {
  programs::Scratch scratch;
  ContourOptions told;
  ContoursRead read(const std::string& features) {
    told.path = scratch.write("c.geojson", R"({"type":"FeatureCollection","features":[)" + features + "]}");
    return read_contours(told, home(), 7);
  }
  std::string said(const std::string& features) {
    return complaint([&] { read(features); });
  }
};

}  // namespace

TEST_CASE("lines and every ring of a polygon are contours, shore and islands too") {
  Layers layers;
  const ContoursRead read = layers.read(area(R"("Depth_ft":0)", square(400) + "," + square(20)) + "," +
                                        line(R"("Depth_ft":10)", square(200)));
  CHECK(read.source.unit == "ft");
  CHECK(read.source.rows == 2);
  CHECK(read.source.used == 2);
  REQUIRE(read.contours.size() == 3);
  CHECK(read.contours[0].depth == Metres(0));
  CHECK(read.contours[1].depth == Metres(0));
  CHECK(read.contours[2].depth.value() == Approx(3.048));
  CHECK(read.contours[2].file == 7);
  for (const DepthContour& one : read.contours) CHECK(one.line.front() == one.line.back());
  // squares of 800, 40 and 400 m
  CHECK(length(read.contours[0].line).value() == Approx(3200).margin(0.01));
  CHECK(length(read.contours[1].line).value() == Approx(160).margin(0.01));
  CHECK(length(read.contours[2].line).value() == Approx(1600).margin(0.01));
}

TEST_CASE("depths of contours as text, in Z, as heights, as elevations") {
  Layers layers;
  CHECK(layers.read(line(R"("DEPTH":"10 ft")", square(100))).contours.at(0).depth.value() == Approx(3.048));
  layers.told.unit = DepthUnit::metre;
  const ContoursRead heights = layers.read(line(R"("a":1)", square(300, 0)) + "," + line(R"("a":1)", square(200, -5)) +
                                           "," + line(R"("a":1)", square(100, -10)));
  CHECK(heights.source.columns.depth == "Z");
  CHECK(heights.source.sense == Sense::height);
  CHECK(heights.contours.at(0).depth == Metres(0));
  CHECK(heights.contours.at(2).depth == Metres(10));
  layers.told.surface = Metres(312);
  const std::string elevations = line(R"("ELEV":310)", square(200)) + "," + line(R"("ELEV":312)", square(300)) + "," +
                                 line(R"("ELEV":314)", square(400));
  const ContoursRead below = layers.read(elevations);
  REQUIRE(below.contours.size() == 2);
  CHECK(below.contours[0].depth == Metres(2));
  CHECK(below.contours[1].depth == Metres(0));
  CHECK_THAT(below.source.notes.at(0), Contains("1 contours stand above the water's surface"));
}

TEST_CASE("a contour without a depth is named, with the fields there are") {
  Layers layers;
  layers.told.unit = DepthUnit::metre;
  const ContoursRead read =
      layers.read(line(R"("depth":5,"who":"x")", square(100)) + "," + line(R"("depth":null,"who":"y")", square(50)));
  CHECK(read.contours.size() == 1);
  REQUIRE(read.source.notes.size() == 1);
  CHECK_THAT(read.source.notes[0], Contains("1 contours are not used (feature 1: it has no depth)") &&
                                       Contains("its fields are depth, who") && Contains("give each a depth"));
  CHECK_THAT(layers.said(line(R"("depth":null)", square(50))),
             Contains("none of its 1 features is a contour with a depth; 1 of them: it has no depth"));
  CHECK_THAT(layers.said(line(R"("who":"y")", square(50))), Contains("no field whose name says depth, and no Z"));
  CHECK_THAT(
      layers.said(R"({"type":"Feature","properties":{"depth":3},"geometry":{"type":"Point","coordinates":[1,2]}})"),
      Contains("it is neither a line nor an area"));
  CHECK_THAT(layers.said(""), Contains("holds no features"));
  CHECK_THAT(layers.said(line(R"("a":1)", "[[-39.2,45.5,-3],[-39.19,45.5,-8]]")), Contains("its Z is not the same"));
}

TEST_CASE("a level moves contours; what falls dry is no contour") {
  Layers layers;
  layers.told.unit = DepthUnit::metre;
  layers.told.level_offset = Metres(-1);
  const ContoursRead read = layers.read(line(R"("depth":0)", square(300)) + "," + line(R"("depth":1)", square(200)) +
                                        "," + line(R"("depth":5)", square(100)));
  REQUIRE(read.contours.size() == 2);
  CHECK(read.contours[0].depth == Metres(0));
  CHECK(read.contours[1].depth == Metres(4));
  CHECK(read.source.reasons.at("it stands above the water's surface") == 1);
}
