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

std::string feature(const std::string& properties, const std::string& geometry) {
  return R"({"type":"Feature","properties":{)" + properties + R"(},"geometry":)" + geometry + "}";
}

std::string point(const std::string& coordinates) { return R"({"type":"Point","coordinates":[)" + coordinates + "]}"; }

std::string collection(const std::string& features) {
  return R"({"type":"FeatureCollection","features":[)" + features + "]}";
}

SoundingsRead read(const std::string& path, std::optional<DepthUnit> unit = std::nullopt,
                   const std::string& field = "") {
  SoundingOptions told;
  told.path = path;
  told.unit = unit;
  told.field = field;
  return read_soundings(told, home());
}

/// A file made from another by ogr2ogr.
std::string made(const programs::Scratch& scratch, const std::string& from, const std::string& to,
                 const std::string& options) {
  const auto done = programs::run("ogr2ogr " + options + " " + scratch.path(to) + " " + scratch.path(from));
  INFO(done.text);
  REQUIRE(done.code == 0);
  return scratch.path(to);
}

}  // namespace

TEST_CASE("depths as numbers, as text and in Z, out of any format") {
  const programs::Scratch scratch;
  scratch.write("a.geojson", collection(feature(R"("DEPTH":10,"T":"10 ft")", point("-39.2,45.5,-3.048")) + "," +
                                        feature(R"("DEPTH":20,"T":"6.096 m")", point("-39.199,45.5,-6.096"))));
  const auto [name, options] = GENERATE(table<std::string, std::string>({
      {"a.gpkg", "-f GPKG"},
      {"a.shp", "-f 'ESRI Shapefile' -t_srs EPSG:32624"},
      {"a.fgb", "-f FlatGeobuf -lco SPATIAL_INDEX=NO -t_srs EPSG:3857"},
  }));
  INFO(name);
  const std::string path = made(scratch, "a.geojson", name, options);
  const SoundingsRead numbers = read(path, DepthUnit::foot);
  REQUIRE(numbers.soundings.size() == 2);
  CHECK(std::hypot(numbers.soundings[0].at.x, numbers.soundings[0].at.y) < 1e-3);
  CHECK(numbers.soundings[0].depth.value() == Approx(3.048));
  CHECK(numbers.source.columns.depth == "DEPTH");
  CHECK(numbers.source.crs_from == "the file");
  CHECK_THAT(numbers.source.notes.at(0), Contains("not used: Z"));
  // text that states its unit needs no other
  const SoundingsRead text = read(path, std::nullopt, "t");
  CHECK(text.soundings[0].depth.value() == Approx(3.048));
  CHECK(text.soundings[1].depth.value() == Approx(6.096));
  CHECK(text.source.unit == "as written at each depth");

  const std::string bare = made(scratch, name, "z_" + name, options + " -select T");
  const SoundingsRead z = read(bare, DepthUnit::metre);
  CHECK(z.source.columns.depth == "Z");
  CHECK(z.source.sense == Sense::height);
  CHECK(z.soundings[1].depth.value() == Approx(6.096));
}

TEST_CASE("a layer that holds no depths says what it has") {
  const programs::Scratch scratch;
  const std::string flat = scratch.write("a.geojson", collection(feature(R"("KIND":"x","N":3)", point("-39.2,45.5"))));
  CHECK_THAT(complaint([&] { read(flat, DepthUnit::metre); }),
             Contains("a.geojson: no field whose name says depth, and no Z; it has the fields KIND, N") &&
                 Contains("--field NAME"));
  CHECK_THAT(complaint([&] { read(flat, DepthUnit::metre, "M"); }), Contains("no field M; it has KIND, N"));
  CHECK_THAT(complaint([&] { read(flat, std::nullopt, "N"); }), Contains("no depth unit"));
  const std::string empty = scratch.write("empty.geojson", collection(""));
  CHECK_THAT(complaint([&] { read(empty, DepthUnit::metre); }), Contains("empty.geojson: holds no features"));
  const std::string nulls =
      scratch.write("nulls.geojson", collection(feature(R"("depth":null)", point("-39.2,45.5")) + "," +
                                                feature(R"("depth":4.5)", point("-39.2,45.5")) + "," +
                                                feature(R"("depth":4.5)", "null")));
  const SoundingsRead some = read(nulls, DepthUnit::metre);
  CHECK(some.soundings.size() == 1);
  CHECK(some.source.reasons.at("it has no depth") == 1);
  CHECK(some.source.reasons.at("it has no place") == 1);
}

TEST_CASE("the vertices of a line with Z are a track") {
  const programs::Scratch scratch;
  const std::string path = scratch.write(
      "t.geojson",
      collection(feature("", R"({"type":"LineString","coordinates":[[-39.2,45.5,2],[-39.199,45.5,3]]})") + "," +
                 feature("", R"({"type":"LineString","coordinates":[[-39.2,45.501,4],[-39.199,45.501,5]]})")));
  const SoundingsRead lines = read(path, DepthUnit::metre);
  REQUIRE(lines.soundings.size() == 4);
  CHECK(lines.source.tracks == 2);
  CHECK(lines.soundings[1].track == 0);
  CHECK(lines.soundings[2].track == 1);
  CHECK(lines.soundings[3].depth.value() == 5);
}

TEST_CASE("GPX tracks with depths, in any namespace and at any level of the extensions") {
  const programs::Scratch scratch;
  // GPX 1.1: lat and lon are WGS 84 degrees, own elements stand in extensions; ele is a height and no depth
  const std::string text = R"(<?xml version="1.0"?><gpx version="1.1" creator="t"
      xmlns="http://www.topografix.com/GPX/1/1" xmlns:s="urn:s" xmlns:q="urn:q">
      <trk><trkseg>
        <trkpt lat="45.5" lon="-39.2"><ele>312</ele><extensions><s:depth>3.5</s:depth></extensions></trkpt>
        <trkpt lat="45.5" lon="-39.199"><extensions><q:Point><q:Depth>4</q:Depth></q:Point></extensions></trkpt>
        <trkpt lat="45.5" lon="-39.198"><ele>300</ele></trkpt>
      </trkseg><trkseg>
        <trkpt lat="45.501" lon="-39.2"><extensions><depth>5</depth></extensions></trkpt>
      </trkseg></trk></gpx>)";
  const std::string path = scratch.write("run.gpx", text);
  const SoundingsRead found = read(path);
  REQUIRE(found.soundings.size() == 3);
  CHECK(std::hypot(found.soundings[0].at.x, found.soundings[0].at.y) < 1e-6);
  CHECK(found.soundings[0].depth.value() == 3.5F);
  CHECK(found.soundings[1].depth.value() == 4.0F);
  CHECK(found.soundings[1].track == 0);
  CHECK(found.soundings[2].track == 1);
  CHECK(found.source.tracks == 2);
  CHECK(found.source.unit == "m");
  CHECK(found.source.reasons.at("it has no depth") == 1);
  CHECK(found.source.unread.at(0).line == 3);
  CHECK(read(path, DepthUnit::foot).soundings[0].depth.value() == Approx(3.5 * 0.3048));

  const std::string bare = scratch.write(
      "bare.gpx", R"(<gpx><trk><trkseg><trkpt lat="1" lon="2"><ele>3</ele></trkpt></trkseg></trk></gpx>)");
  CHECK_THAT(complaint([&] { read(bare); }), Contains("bare.gpx: none of its 1 points has a depth"));
  CHECK_THAT(complaint([&] { read(scratch.write("cut.gpx", "<gpx><trk>")); }), Contains("cannot be read as GPX"));
  CHECK_THAT(complaint([&] { read(scratch.write("empty.gpx", "<gpx/>")); }),
             Contains("empty.gpx: none of its 0 points holds a sounding"));
}
