// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "castplan/io/lake_file.hpp"
#include "io/rasters.hpp"
#include "support/programs.hpp"

using namespace castplan;
using castplan::rasters::complaint;
using Catch::Matchers::Contains;

namespace {

struct Written {
  programs::Scratch scratch;
  LakeFile read(const std::string& depth, const std::string& more = "") {
    return read_lake_file(scratch.write("k.toml", "name = \"K\"\n[depth]\n" + depth + "\n" + more));
  }
  std::string said(const std::string& depth, const std::string& more = "") {
    return complaint([&] { read(depth, more); });
  }
};

const std::string kRun = "[[depth.soundings]]\nfile = \"run1.csv\"\n";

}  // namespace

TEST_CASE("every key of soundings and contours is read") {
  Written written;
  const LakeFile file = written.read(R"(
cell = "5 m"
source = "Own survey"
[[depth.soundings]]
file = "run1.csv"
columns = { x = "lon", y = "lat", depth = "d", track = 4 }
crs = "EPSG:4326"
unit = "ft"
sense = "height"
separator = "semicolon"
decimal = "comma"
transducer = "1 ft"
[[depth.soundings]]
file = "sub/run2.gpkg"
layer = "sonar"
field = "DEPTH"
[[depth.contours]]
file = "contours.shp"
layer = "c"
field = "DEPTH"
unit = "fathom"
sense = "elevation"
crs = "EPSG:32624"
)");
  CHECK(file.raster.path.empty());
  CHECK(file.cell == Metres(5));
  REQUIRE(file.soundings.size() == 2);
  const SoundingOptions& run = file.soundings[0];
  CHECK(run.path == written.scratch.path("run1.csv"));
  CHECK(run.shown == "run1.csv");
  CHECK(run.columns.x + run.columns.y + run.columns.depth + run.columns.track == "lonlatd4");
  CHECK(run.crs == "EPSG:4326");
  CHECK(run.unit == DepthUnit::foot);
  CHECK(run.sense == Sense::height);
  CHECK(run.separator == ';');
  CHECK(run.decimal == ',');
  CHECK(run.transducer.value() == Approx(0.3048));
  CHECK(file.soundings[1].path == written.scratch.path("sub/run2.gpkg"));
  CHECK(file.soundings[1].layer == "sonar");
  CHECK(file.soundings[1].field == "DEPTH");
  CHECK_FALSE(file.soundings[1].unit);
  CHECK_FALSE(file.soundings[1].sense);
  REQUIRE(file.contours.size() == 1);
  CHECK(file.contours[0].field == "DEPTH");
  CHECK(file.contours[0].layer == "c");
  CHECK(file.contours[0].unit == DepthUnit::fathom);
  CHECK(file.contours[0].sense == Sense::elevation);
  CHECK(file.contours[0].crs == "EPSG:32624");
}

TEST_CASE("what an entry leaves open it has from [depth]") {
  Written written;
  const LakeFile file = written.read("unit = \"ft\"\nsense = \"height\"\ncrs = \"EPSG:32624\"\n" + kRun +
                                     "[[depth.contours]]\nfile = \"c.shp\"\nunit = "
                                     "\"m\"\ncrs = \"EPSG:32623\"\n");
  CHECK(file.soundings[0].unit == DepthUnit::foot);
  CHECK(file.soundings[0].sense == Sense::height);
  CHECK(file.soundings[0].crs == "EPSG:32624");
  CHECK(file.contours[0].unit == DepthUnit::metre);
  CHECK(file.contours[0].crs == "EPSG:32623");
}

TEST_CASE("a wrong key or value among soundings says what was expected") {
  Written written;
  const auto [depth, more, text] = GENERATE(table<std::string, std::string, std::string>({
      {kRun + "colums = { x = \"a\" }", "", "line 5: unknown key depth.soundings.colums, did you mean columns?"},
      {kRun + "columns = { z = \"a\" }", "", "unknown key depth.soundings.columns.z"},
      {kRun + "columns = { x = 0 }", "", "found 0, expected a column's name, or its number from 1"},
      {kRun + "separator = \"bar\"", "", "expected one character, or one of comma, semicolon, tab, spaces"},
      {kRun + "decimal = \"dot\"", "", "known are point, comma"},
      {kRun + "separator = \",\"\ndecimal = \",\"", "", "the comma that parts the columns too"},
      {kRun + "transducer = \"-0.3 m\"", "", "transducer: is negative"},
      {kRun + "transducer = 0.3", "", "expected a length with its unit"},
      {kRun + "unit = \"furlong\"", "", "depth.soundings.unit: "},
      {kRun + "sense = \"depths\"", "", "did you mean \"depth\"?"},
      {kRun + "level = { survey = \"3 m\", offset = \"1 m\" }", "", "expected one of the two"},
      {kRun + "field = \"a\"\ncolumns = { depth = \"b\" }", "", "field: names another depth"},
      {"[[depth.soundings]]\nunit = \"m\"", "", "depth.soundings.file: is missing"},
      {"[[depth.contours]]\nfile = \"c.shp\"\nseparator = \";\"", "", "unknown key depth.contours.separator"},
      {"[depth.soundings]\nfile = \"run1.csv\"", "", "expected [[soundings]]"},
      {"cell = \"0 m\"\n" + kRun, "", "depth.cell: expected more than 0"},
      {"cell = 5\n" + kRun, "", "depth.cell: found 5, expected a length with its unit"},
      {"band = 2\n" + kRun, "", "depth.band: belongs to a raster"},
      {"raster = \"k.tif\"\n" + kRun, "", "depth.raster: stands beside soundings or contours"},
      {"unit = \"m\"", "", "depth.raster: is missing; expected a depth raster"},
  }));
  INFO(depth);
  CHECK_THAT(written.said(depth, more), Contains(text) && Contains("k.toml, line "));
}

TEST_CASE("files surveyed at their own levels are reduced to one surface") {
  Written written;
  const std::string two = kRun + "level = \"312 m\"\n[[depth.contours]]\nfile = \"c.shp\"\nlevel = \"310.5 m\"\n";
  SECTION("the one of [level]") {
    const LakeFile file = written.read(two, "[level]\nsurvey = \"311 m\"\ntoday = \"310 m\"");
    // a file surveyed at 312 m holds depths 1 m too great for a surface of 311 m
    CHECK(file.soundings[0].level_offset == Metres(-1));
    CHECK(file.contours[0].level_offset == Metres(0.5));
    CHECK(file.soundings[0].surface == Metres(311));
    CHECK(file.raster.level_offset == Metres(-1));
  }
  SECTION("without it, only when they agree") {
    CHECK_THAT(written.said(two), Contains("surveyed at different levels (312.00 m and 310.50 m)"));
    const LakeFile one = written.read(kRun + "level = \"312 m\"\n", "[level]\ntoday = \"311.5 m\"");
    CHECK(one.soundings[0].level_offset == Metres(0));
    CHECK(one.raster.survey_surface == Metres(312));
    CHECK(one.raster.level_offset == Metres(-0.5));
    CHECK(written.read(kRun + "level = \"312 m\"\n").raster.surface == Metres(312));
  }
  SECTION("by an offset where no elevation is known") {
    const LakeFile file = written.read(kRun + "level = { offset = \"0.4 m\" }\n");
    CHECK(file.soundings[0].level_offset == Metres(-0.4));
    CHECK_FALSE(file.soundings[0].surface);
  }
  SECTION("the surface of [depth] serves too") {
    const LakeFile file = written.read("surface = \"313 m\"\n" + kRun + "level = \"312 m\"\n");
    CHECK(file.soundings[0].level_offset == Metres(1));
    CHECK(file.raster.survey_surface == Metres(313));
  }
}
