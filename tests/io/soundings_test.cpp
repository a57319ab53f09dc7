// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/soundings.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <sstream>

#include "io/rasters.hpp"
#include "support/programs.hpp"

using namespace castplan;
using castplan::rasters::complaint;
using castplan::rasters::home;
using Catch::Matchers::Contains;

namespace {

/// Options for a file of the scratch folder, with the home plane as its system unless the columns are degrees.
SoundingOptions options(const std::string& path) {
  SoundingOptions out;
  out.path = path;
  return out;
}

struct Tables {
  programs::Scratch scratch;
  SoundingsRead read(const std::string& bytes, SoundingOptions told = {}, const std::string& name = "run.csv") {
    told.path = scratch.write(name, bytes);
    return read_soundings(told, home());
  }
  std::string said(const std::string& bytes, const SoundingOptions& told = {}, const std::string& name = "run.csv") {
    return complaint([&] { read(bytes, told, name); });
  }
};

SoundingOptions on_home_plane() {
  SoundingOptions told;
  told.crs = rasters::Spec{}.crs;
  told.unit = DepthUnit::metre;
  return told;
}

}  // namespace

TEST_CASE("one table in many guises gives the same soundings") {
  // the home plane's middle is 39.2 W 45.5 N by definition, so that the first place is the origin
  Tables tables;
  const auto [bytes, separator, decimal, header] = GENERATE(table<std::string, std::string, char, bool>({
      {"lon,lat,depth_m\n-39.2,45.5,3.25\n-39.199,45.5,4.5\n", "comma", '.', true},
      {"\xEF\xBB\xBFLongitude, Latitude, Depth (m)\r\n-39.2, 45.5, 3.25\r\n-39.199, 45.5, 4.5\r\n", "comma", '.', true},
      {"lat;lon;depth_m\n45,5;-39,2;3,25\n45,5;-39,199;4,5\n", "semicolon", ',', true},
      {"lat,lon,depth_m\n\"45,5\",\"-39,2\",\"3,25\"\n\"45,5\",\"-39,199\",\"4,5\"\n", "comma", ',', true},
      {"LON\tLAT\tNOTE\tDEPTH_M\n-39.2\t45.5\ta, b\t3.25\n-39.199\t45.5\t\t4.5\n", "tab", '.', true},
      {"\"lon\",\"lat\",\"note\",\"depth_m\"\n\"-39.2\",\"45.5\",\"a, b\",\"3.25\"\n-39.199,45.5,,4.5\n", "comma", '.',
       true},
      {"# a log\n\nlon lat depth_m\n  -39.2   45.5  3.25\n -39.199 45.5 4.5", "spaces", '.', true},
      {"time,lon,lat,depth_m\n2026-06-01 10:00:00,-39.2,45.5,3.25\n2026-06-01 10:00:01,-39.199,45.5,4.5\n", "comma",
       '.', true},
      {"lon,lat,depth\n-39.2,45.5,3.25 m\n-39.199,45.5,450 cm\n", "comma", '.', true},
  }));
  INFO(bytes);
  const SoundingsRead read = tables.read(bytes);
  CHECK(read.source.separator == separator);
  CHECK(read.source.decimal == decimal);
  CHECK(read.source.header == header);
  CHECK(read.source.crs_from.rfind("column names", 0) == 0);
  REQUIRE(read.soundings.size() == 2);
  CHECK(std::hypot(read.soundings[0].at.x, read.soundings[0].at.y) < 1e-6);
  CHECK(read.soundings[0].depth.value() == Approx(3.25));
  CHECK(read.soundings[1].depth.value() == Approx(4.5));
  // a thousandth of a degree of longitude at 45.5 N on the GRS 80 ellipsoid: a cos(lat) / sqrt(1 - e2 sin2(lat))
  const double lat = 45.5 * std::numbers::pi / 180;
  const double radius = 6378137 / std::sqrt(1 - 0.00669438 * std::pow(std::sin(lat), 2)) * std::cos(lat);
  CHECK(read.soundings[1].at.x == Approx(radius * std::numbers::pi / 180000).margin(1e-3));
  CHECK(read.source.rows == 2);
  CHECK(read.source.used == 2);
  CHECK(read.source.centre.lat.degrees == Approx(45.5).margin(1e-6));
}

TEST_CASE("a table without a header is x, y, depth, or what the options say") {
  Tables tables;
  SoundingOptions told = on_home_plane();
  const SoundingsRead plain = tables.read("100.5 -20 3.5\n101.5 -20 3.6\n", told, "run.xyz");
  CHECK_FALSE(plain.source.header);
  CHECK(plain.source.columns.depth == "3");
  CHECK(plain.soundings.at(0).at == XY{100.5, -20});
  told.columns = {"2", "3", "4", "1"};
  const SoundingsRead more = tables.read("7;100,5;-20;3,5\n7;101,5;-20;3,6\n9;0;0;1\n7;0;0;1\n", told, "run.txt");
  REQUIRE(more.soundings.size() == 4);
  CHECK(more.soundings[0].at == XY{100.5, -20});
  CHECK(more.source.tracks == 2);
  CHECK(more.soundings[0].track == 0);
  CHECK(more.soundings[2].track == 1);
  CHECK(more.soundings[3].track == 0);
}

TEST_CASE("the unit comes from the option or the column, never from nowhere") {
  Tables tables;
  // 10 ft are 3.048 m and 1 fathom 1.8288 m, exact (NIST SP 811, appendix B.6)
  CHECK(tables.read("lon,lat,depth_ft\n-39.2,45.5,10\n-39.2,45.5,20\n").soundings[0].depth.value() == Approx(3.048));
  const std::string open = "lon,lat,depth\n-39.2,45.5,10\n-39.2,45.5,20\n";
  CHECK_THAT(tables.said(open), Contains("run.csv: no depth unit") && Contains("--unit m or --unit ft"));
  SoundingOptions told;
  told.unit = DepthUnit::fathom;
  CHECK(tables.read(open, told).soundings[0].depth.value() == Approx(18.288));
  SECTION("one that contradicts the column's name is noted") {
    told.unit = DepthUnit::metre;
    const SoundingsRead read = tables.read("lon,lat,depth_ft\n-39.2,45.5,10\n-39.2,45.5,20\n", told);
    CHECK(read.soundings[0].depth.value() == Approx(10));
    REQUIRE(read.source.notes.size() == 1);
    CHECK_THAT(read.source.notes[0], Contains("depth_ft states the unit ft, the one given is used instead (m)"));
  }
  SECTION("of two columns the one with the unit asked for") {
    const std::string two = "lon,lat,depth_m,depth_ft\n-39.2,45.5,3,9.84252\n-39.2,45.5,3,9.84252\n";
    told.unit = DepthUnit::foot;
    const SoundingsRead read = tables.read(two, told);
    CHECK(read.source.columns.depth == "depth_ft");
    CHECK(read.soundings[0].depth.value() == Approx(3).margin(1e-5));
    CHECK(tables.read(two).source.columns.depth == "depth_m");
    CHECK_THAT(tables.read(two).source.notes.at(0), Contains("not used: depth_ft"));
  }
}

TEST_CASE("signs show the sense, and one that contradicts them is refused") {
  Tables tables;
  SoundingOptions told = on_home_plane();
  const std::string heights = "x,y,z\n0,0,-3\n1,0,-4\n2,0,0\n";
  const SoundingsRead read = tables.read(heights, told);
  CHECK(read.soundings[0].depth.value() == 3);
  CHECK(read.source.sense == Sense::height);
  CHECK(read.source.sense_from == "2 of 2 values are negative");
  told.sense = Sense::depth;
  CHECK_THAT(tables.said(heights, told), Contains("100 % of the values are negative") && Contains("--sense height"));
  told.sense = Sense::height;
  CHECK_THAT(tables.said("x,y,z\n0,0,3\n1,0,4\n", told), Contains("only 0 % of the values are negative"));
  told.sense.reset();
  CHECK_THAT(tables.said("x,y,z\n0,0,3\n1,0,-4\n", told), Contains("1 of 2 values are negative") && Contains("say it"));
  CHECK_THAT(tables.said("x,y,z\n0,0,303\n1,0,304\n", told), Contains("none is shallower than 303.0 m"));
  SECTION("elevations need the surface") {
    CHECK_THAT(tables.said("x,y,elevation\n0,0,303\n1,0,304\n", told), Contains("needs the water's surface"));
    told.surface = Metres(312.5);
    const SoundingsRead below = tables.read("x,y,elevation\n0,0,303\n1,0,304\n", told);
    CHECK(below.soundings[0].depth.value() == Approx(9.5));
    CHECK(below.source.sense_from == "column name elevation");
    told.surface = Metres(100);
    CHECK_THAT(tables.said("x,y,elevation\n0,0,303\n1,0,304\n", told), Contains("no value lies below the surface"));
  }
}

TEST_CASE("a transducer's depth and a level are added") {
  Tables tables;
  SoundingOptions told = on_home_plane();
  told.transducer = Metres(0.4);
  told.level_offset = Metres(-1.5);
  // 3 m under an instrument 0.4 m down, and the reference stands 1.5 m lower than the water then: 1.9 m
  CHECK(tables.read("x,y,depth\n0,0,3\n1,1,4\n", told).soundings[0].depth.value() == Approx(1.9));
  CHECK(tables.read("x,y,depth\n0,0,-3\n1,1,-4\n", told).soundings[0].depth.value() == Approx(1.9));
  // a sounding that falls dry stays in, below zero: cleaning tells it
  CHECK(tables.read("x,y,depth\n0,0,1\n1,1,4\n", told).soundings[0].depth.value() == Approx(-0.1));
}

TEST_CASE("swapped columns and a wrong system are found out") {
  Tables tables;
  SoundingOptions metres;
  metres.unit = DepthUnit::metre;
  CHECK_THAT(tables.said("lon,lat,depth\n45.5,-139.2,3\n45.5,-139.3,4\n", metres),
             Contains("longitude 45.5000, latitude -139") && Contains("swapped") && Contains("--columns x=lat,y=lon"));
  CHECK_THAT(tables.said("lon,lat,depth\n46.0,-89.6,3\n46.1,-89.7,4\n", metres), Contains("swapped"));
  metres.columns = {"lat", "lon", "", ""};
  CHECK(tables.read("lon,lat,depth\n46.0,-89.6,3\n46.1,-89.7,4\n", metres).soundings.size() == 2);
  CHECK_THAT(tables.said("lon,lat,depth_m\n500000,5040000,3\n500001,5040000,4\n"), Contains("are not degrees"));
  SoundingOptions utm;
  utm.unit = DepthUnit::metre;
  utm.crs = "EPSG:32624";
  CHECK_THAT(tables.said("x,y,depth\n-39.20017,45.50012,3\n-39.20118,45.50113,4\n", utm),
             Contains("look like degrees"));
  CHECK_THAT(tables.said("x,y,depth\n5040000,500000,3\n5040100,500000,4\n", utm),
             Contains("the two swapped lie inside it") && Contains("--columns x=y,y=x"));
  CHECK(tables.read("x,y,depth\n500000,5040000,3\n500100,5040000,4\n", utm).soundings.size() == 2);
  utm.crs = "EPSG:nowhere";
  CHECK_THAT(tables.said("x,y,depth\n500000,5040000,3\n", utm), Contains("run.csv: the CRS given cannot be used"));
  utm.crs.clear();
  CHECK_THAT(tables.said("x,y,depth\n500000,5040000,3\n500100,5040000,4\n", utm),
             Contains("run.csv: states no CRS") && Contains("--crs EPSG:"));
}

TEST_CASE("rows that cannot be read are counted with their lines") {
  Tables tables;
  const SoundingsRead read = tables.read(
      "lon,lat,depth_m\n-39.2,45.5,3\n\n-39.2,45.5,\n-39.2,45.5,abc\n-39.2,x,3\n-39.2\n-39.2,45.5,-9999\n"
      "-39.2,45.5,nan\n-39.2,98,3\n-39.2,45.5,4\n-39.2,45.5,5\n");
  CHECK(read.soundings.size() == 3);
  CHECK(read.source.rows == 10);
  CHECK(read.source.used == 3);
  REQUIRE(read.source.unread.size() == 5);
  CHECK(read.source.unread[0].line == 4);
  CHECK(read.source.unread[0].why == "it has no depth");
  CHECK(read.source.unread[1].line == 5);
  CHECK(read.source.unread[1].why == "its depth is not a number: \"abc\"");
  std::size_t all = 0;
  for (const auto& [reason, count] : read.source.reasons) all += count;
  CHECK(all == 7);
  CHECK(read.source.reasons.at("its depth is a filler for no data") == 1);
  CHECK(read.source.reasons.at("its place is not on the earth") == 1);
}

TEST_CASE("tables that cannot be read say what would help") {
  Tables tables;
  const auto [bytes, text] = GENERATE(table<std::string, std::string>({
      {"", "run.csv: is empty"},
      {"lon,lat,depth_m\n", "holds one line, \"lon,lat,depth_m\", and no rows"},
      {"lon,lat,depth_m\n-39.2,45.5,\n-39.2,45.5,\n", "no rows of at least three numbers"},
      {"a,b,c\n1,2,3\n4,5,6\n",
       "no column whose name says longitude or x; it has a, b, c; say which: --columns x=NAME"},
      {"lon,lat,c\n1,2,3\n4,5,6\n", "no column whose name says depth; it has lon, lat, c"},
      {"lon,lat,depth_m\n-39,2,45,5,3,1\n-39,2,45,5,3,2\n", "decimal commas between commas cannot be told apart"},
      {"lon;lat;depth_m\n-39,2;45.5;3\n-39,2;45.5;3\n", "decimal commas (\"-39,2\") stand beside decimal points"},
      {"lon|lat|depth_m\n1|2|3\n4|5|6\n", "if the separator is another, say it"},
      {std::string("l\0o\0n\0", 6), "UTF-16 or binary"},
  }));
  INFO(bytes);
  CHECK_THAT(tables.said(bytes), Contains(text));
  SoundingOptions bar;
  bar.separator = '|';
  CHECK(tables.read("lon|lat|depth_m\n1|2|3\n4|5|6\n", bar).soundings.size() == 2);
  CHECK_THAT(complaint([&] { read_soundings(options(tables.scratch.path("none.csv")), home()); }),
             Contains("none.csv: no such file"));
}

TEST_CASE("two UTM zones land on one plane") {
  // A place on the border of zones 23 and 24 (42 W), written in each zone by PROJ's own program.
  const auto in_zone = [](const std::string& zone) {
    const auto made =
        programs::run("echo '-42.0005 45.5' | cs2cs -f %.4f +proj=longlat +datum=WGS84 +to +proj=utm +zone=" + zone +
                      " +datum=WGS84");
    REQUIRE(made.code == 0);
    std::istringstream numbers(made.text);
    std::string x;
    std::string y;
    numbers >> x >> y;
    return x + "," + y;
  };
  const auto truth = programs::run(
      "echo '-42.0005 45.5' | cs2cs -f %.4f +proj=longlat +datum=WGS84 +to +proj=tmerc +lat_0=45.5 +lon_0=-42 "
      "+datum=WGS84");
  REQUIRE(truth.code == 0);
  const double x = std::stod(truth.text);
  const Projection plane = Projection::transverse_mercator({Longitude{-42}, Latitude{45.5}});
  const programs::Scratch scratch;
  for (const std::string zone : {"23", "24"}) {
    INFO(zone);
    SoundingOptions told = options(scratch.write(
        "z" + zone + ".csv", "easting,northing,depth_m\n" + in_zone(zone) + ",3\n" + in_zone(zone) + ",4\n"));
    told.crs = "EPSG:326" + zone;
    const SoundingsRead read = read_soundings(told, plane, zone == "23" ? 0 : 1);
    CHECK(read.soundings.at(0).at.x == Approx(x).margin(0.01));
    CHECK(std::fabs(read.soundings.at(0).at.y) < 0.01);
    CHECK(read.soundings.at(0).file == (zone == "23" ? 0 : 1));
  }
}

TEST_CASE("a table longer than a block is read to its end, in its order") {
  std::string bytes = "x,y,depth_m\n";
  for (int i = 0; i < 60000; ++i) bytes += std::to_string(i) + ",0," + std::to_string(1 + i % 10) + ".5\n";
  Tables tables;
  const SoundingsRead read = tables.read(bytes, on_home_plane());
  REQUIRE(read.soundings.size() == 60000);
  bool in_order = true;
  for (std::size_t i = 0; i < 60000; ++i) {
    in_order = in_order && read.soundings[i].at.x == static_cast<double>(i) &&
               read.soundings[i].depth.value() == static_cast<float>(1.5 + static_cast<double>(i % 10));
  }
  CHECK(in_order);
}

TEST_CASE("a depth that no lake has, and options of no use, are noted") {
  Tables tables;
  SoundingOptions told;
  told.unit = DepthUnit::fathom;
  told.layer = "x";
  const SoundingsRead read = tables.read("lon,lat,depth\n-39.2,45.5,10\n-39.2,45.5,1000\n", told);
  REQUIRE(read.source.notes.size() == 2);
  CHECK_THAT(read.source.notes[0], Contains("its deepest value is 1829 m") && Contains("check the unit"));
  CHECK(read.source.notes[1] == "run.csv: not used for such a file: layer");
}
