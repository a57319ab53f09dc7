// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/lake_file.hpp"

#include <catch2/catch.hpp>

#include "io/rasters.hpp"
#include "support/programs.hpp"

using namespace castplan;
using castplan::rasters::complaint;
using Catch::Matchers::Contains;

namespace {

struct Written {
  programs::Scratch scratch;
  LakeFile read(const std::string& text) { return read_lake_file(scratch.write("k.toml", text)); }
  /// A lake file with the two needed keys and more.
  LakeFile with(const std::string& depth, const std::string& more = "") {
    return read("name = \"K\"\n[depth]\nraster = \"k.tif\"\n" + depth + "\n" + more);
  }
  std::string said(const std::string& depth, const std::string& more = "") {
    return complaint([&] { with(depth, more); });
  }
};

const char* const kEveryKey = R"(
name = "Kestrel Mere"
water = "reservoir"
time_zone = "Etc/GMT+3"
holds = ["muskellunge", "largemouth-bass"]
[depth]
raster = "kestrel_mere.tif"
band = 2
nodata = -32768
unit = "ft"
sense = "elevation"
surface = "312.4 m"
crs = "EPSG:32624"
source = "County survey"
licence = "CC BY 4.0"
surveyed = 1994
error = "0.3 m"
[level]
survey = "312.4 m"
today = "311.8 m"
yearly_range = "6 ft"
[shoreline]
file = "shore.gpkg"
layer = "water"
[[structure]]
file = "wood.shp"
kind = "wood"
crs = "EPSG:4326"
[[structure]]
file = "mixed.shp"
attribute = "TYPE"
map = { LOG = "wood", BLDR = "rock" }
[[launch]]
name = "North ramp"
at = [-40.0123, 45.5123]
usable_above = "310 m"
[[launch]]
file = "ramps.shp"
[[closure]]
file = "refuge.shp"
kind = "no-entry"
buffer = "200 m"
from = "04-01"
to = "05-31"
[rules]
text = "Own words."
source = "The club"
checked = 2026-03-01
open = [["05-25", "11-30"]]
[boat]
type = "canoe"
draft = "0.15 m"
[conditions]
secchi = "2.8 m"
weed_depth = "11 ft"
plants = "rakes.csv"
water_temp = "57 F"
water_temp_at = "bay"
water_temp_taken = 2026-06-10T07:30:00
water_temps = "temps.csv"
air_temps = "air.csv"
profile = "profile.csv"
wind = "wind.csv"
forage = ["cisco"]
)";

}  // namespace

TEST_CASE("every key of a lake file is read") {
  Written written;
  const LakeFile file = written.read(kEveryKey);
  CHECK(file.name == "Kestrel Mere");
  CHECK(file.water == "reservoir");
  CHECK(file.time_zone == "Etc/GMT+3");
  CHECK(file.holds == std::vector<std::string>{"muskellunge", "largemouth-bass"});
  CHECK(file.raster.path == written.scratch.path("kestrel_mere.tif"));
  CHECK(file.raster.shown == "kestrel_mere.tif");
  CHECK(file.raster.band == 2);
  CHECK(file.raster.nodata == -32768.0);
  CHECK(file.raster.unit == DepthUnit::foot);
  CHECK(file.raster.sense == Sense::elevation);
  CHECK(file.raster.surface == Metres(311.8));
  CHECK(file.raster.survey_surface == Metres(312.4));
  CHECK(file.raster.level_offset.value() == Approx(-0.6));
  CHECK(file.raster.crs == "EPSG:32624");
  CHECK(file.source == "County survey");
  CHECK(file.licence == "CC BY 4.0");
  CHECK(file.surveyed == "1994");
  CHECK(file.depth_error == Metres(0.3));
  CHECK(file.level.yearly_range->value() == Approx(1.8288));
  CHECK(file.shoreline->path == written.scratch.path("shore.gpkg"));
  CHECK(file.shoreline->layer == "water");
  REQUIRE(file.structure.size() == 2);
  CHECK(file.structure[0].kind == "wood");
  CHECK(file.structure[0].file.crs == "EPSG:4326");
  CHECK(file.structure[1].attribute == "TYPE");
  CHECK(file.structure[1].map == std::map<std::string, std::string>{{"LOG", "wood"}, {"BLDR", "rock"}});
  REQUIRE(file.launches.size() == 2);
  CHECK(file.launches[0].at == LonLat{Longitude{-40.0123}, Latitude{45.5123}});
  CHECK(file.launches[0].usable_above == Metres(310));
  CHECK(file.launches[1].file->path == written.scratch.path("ramps.shp"));
  REQUIRE(file.closures.size() == 1);
  CHECK(file.closures[0].kind == "no-entry");
  CHECK(file.closures[0].buffer == Metres(200));
  CHECK(file.closures[0].from + file.closures[0].to == "04-0105-31");
  CHECK(file.rules.checked == "2026-03-01");
  CHECK(file.rules.open == std::vector<std::pair<std::string, std::string>>{{"05-25", "11-30"}});
  CHECK(file.boat.type == "canoe");
  CHECK(file.boat.draft == Metres(0.15));
  CHECK(file.conditions.secchi == Metres(2.8));
  CHECK(file.conditions.weed_depth->value() == Approx(3.3528));
  CHECK(file.conditions.plants == written.scratch.path("rakes.csv"));
  CHECK(file.conditions.water_temp->value() == Approx(25.0 * 5 / 9));
  CHECK(file.conditions.water_temp_at == "bay");
  CHECK(file.conditions.water_temp_taken == "2026-06-10T07:30:00");
  CHECK(file.conditions.wind == written.scratch.path("wind.csv"));
  CHECK(file.conditions.forage == std::vector<std::string>{"cisco"});
}

TEST_CASE("only a name and a raster are needed") {
  Written written;
  const LakeFile file = written.with("");
  CHECK(file.boat.draft == Metres(0.45));
  CHECK(file.water == "lake");
  CHECK_FALSE(file.raster.surface);
  CHECK(complaint([&] { written.read("[depth]\nraster = \"k.tif\"\n"); }) ==
        "k.toml, line 1: name: is missing; expected the lake's name: name = \"...\"");
  CHECK_THAT(complaint([&] { written.read("name = \"K\"\n"); }), Contains("[depth] with raster"));
  CHECK_THAT(complaint([&] { written.read("name = \"K\"\n[depth]\nunit = \"m\"\n"); }),
             Contains("depth.raster: is missing"));
}

TEST_CASE("an unknown key is an error with its line and the nearest known one") {
  Written written;
  CHECK_THAT(written.said("sens = \"depth\""),
             Contains("k.toml, line 4: unknown key depth.sens, did you mean sense?; known are") && Contains("surface"));
  CHECK_THAT(written.said("", "[contitions]\nsecchi = \"2 m\""),
             Contains("line 5: unknown key contitions, did you mean conditions?"));
  CHECK_THAT(written.said("", "[[structure]]\nfile = \"a.shp\"\nkind = \"wood\"\ncolour = \"red\""),
             Contains("line 8: unknown key structure.colour"));
}

TEST_CASE("a wrong value says what was found and what was expected") {
  Written written;
  const auto [depth, more, text] = GENERATE(table<std::string, std::string, std::string>({
      {"surface = 312.4", "", "line 4: depth.surface: found 312.4, expected a length with its unit"},
      {"error = \"0.3\"", "", "line 4: depth.error: "},
      {"unit = \"furlong\"", "", "line 4: depth.unit: "},
      {"sense = \"depths\"", "",
       "depth.sense: \"depths\" is not known, did you mean \"depth\"?; known are depth, height"},
      {"band = 0", "", "depth.band: found 0, expected 1 or more"},
      {"band = \"1\"", "", "depth.band: found \"1\", expected a whole number"},
      {"nodata = \"x\"", "", "depth.nodata: found \"x\", expected a number"},
      {"crs = 4326", "", "depth.crs: found 4326, expected text in quotes"},
      {"cell = \"5 m\"", "", "depth.cell: is the cell of a depth grid made from soundings or contours"},
      {"[[depth.soundings]]\nfile = \"run1.csv\"", "", "depth.raster: stands beside soundings or contours"},
      {"[[depth.contours]]\nfile = \"c.shp\"", "", "depth.raster: stands beside soundings or contours"},
      {"", "[conditions]\nwater_temp = 57", "conditions.water_temp: found 57, expected a temperature with its unit"},
      {"", "[conditions]\nwater_temp_at = \"dock\"", "known are main, bay, ramp"},
      {"", "[conditions]\nsecchi = \"0 m\"", "conditions.secchi: expected more than 0"},
      {"", "[boat]\ntype = \"raft\"", "known are motor, canoe, kayak"},
      {"", "[[structure]]\nfile = \"a.shp\"\nkind = \"woods\"", "did you mean \"wood\"?"},
      {"", "[[structure]]\nfile = \"a.shp\"", "structure.kind: is missing"},
      {"", "[[structure]]\nkind = \"wood\"", "structure.file: is missing"},
      {"", "[[structure]]\nfile = \"a.shp\"\nattribute = \"T\"\nmap = { A = \"tree\" }", "\"tree\" is not known"},
      {"", "[structure]\nfile = \"a.shp\"", "expected [[structure]]"},
      {"", "[[closure]]\nfile = \"a.shp\"\nkind = \"shut\"", "known are no-entry, no-fishing, no-wake, electric-only"},
      {"", "[[closure]]\nfile = \"a.shp\"\nkind = \"no-wake\"\nfrom = \"04-31\"\nto = \"05-01\"", "found \"04-31\""},
      {"", "[[closure]]\nfile = \"a.shp\"\nkind = \"no-wake\"\nfrom = \"04-30\"", "closure.to: is missing"},
      {"", "[[launch]]\nname = \"x\"", "expected one of the two"},
      {"", "[[launch]]\nat = [45.5, -140.0]", "is no place on the earth"},
      {"", "[rules]\nchecked = \"soon\"", "expected a date, as in 2026-06-10"},
      {"", "[rules]\nopen = [\"05-25\", \"11-30\"]", "expected pairs of days"},
      {"", "[level]\ntoday = \"300 m\"", "level.today: needs the level when surveyed"},
      {"", "[level]\nsurvey = \"300 m\"\ntoday = \"299 m\"\noffset = \"-0.5 m\"", "today less the survey is -1.00 m"},
      {"surface = \"312.4 m\"\nsense = \"elevation\"", "[level]\nsurvey = \"311 m\"", "but depth.surface is 312.40 m"},
      {"", "water", "is not TOML"},
  }));
  INFO(depth << " / " << more);
  CHECK_THAT(written.said(depth, more), Contains(text) && Contains("k.toml, line "));
}

TEST_CASE("bad water and a file that is not there") {
  Written written;
  CHECK_THAT(complaint([&] { written.read("name = \"K\"\nwater = \"pond\"\n[depth]\nraster = \"k.tif\"\n"); }),
             Contains("line 2: water: \"pond\" is not known") && Contains("lake, reservoir, river"));
  CHECK_THAT(complaint([&] { read_lake_file(written.scratch.path("no.toml")); }), Contains("no such file"));
  CHECK(is_lake_file("a/b.TOML"));
  CHECK_FALSE(is_lake_file("b.tif"));
}

TEST_CASE("levels give today's surface, in any of the ways to say it") {
  Written written;
  SECTION("survey and today, in feet: 8 ft are 2.4384 m") {
    const LakeFile file = written.with("", "[level]\nsurvey = \"1022 ft\"\ntoday = \"1014 ft\"");
    CHECK(file.raster.level_offset.value() == Approx(-2.4384));
    CHECK(file.raster.surface->value() == Approx(1014 * 0.3048));
  }
  SECTION("offset alone") {
    const LakeFile file = written.with("", "[level]\noffset = \"-0.6 m\"");
    CHECK(file.raster.level_offset.value() == Approx(-0.6));
    CHECK_FALSE(file.raster.surface);
  }
  SECTION("elevations: today beats the surveyed surface") {
    const LakeFile file = written.with("sense = \"elevation\"\nsurface = \"312.4 m\"", "[level]\ntoday = \"311.8 m\"");
    CHECK(file.raster.surface == Metres(311.8));
    CHECK(file.raster.survey_surface == Metres(312.4));
  }
  SECTION("elevations with an offset") {
    const LakeFile file = written.with("sense = \"elevation\"\nsurface = \"312.4 m\"", "[level]\noffset = \"-0.4 m\"");
    CHECK(file.raster.surface->value() == Approx(312.0));
  }
}
