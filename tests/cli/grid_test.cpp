// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Lakes with a closed form, brought as a surveyor's files (through ogr2ogr, a program apart) and gridded by the
// program.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <numbers>

#include "castplan/geo/planar.hpp"
#include "cli/castplan_run.hpp"
#include "survey/known_surfaces.hpp"

using namespace castplan;
using namespace castplan::programs;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

// scale 1 at the lake, so that its metres are metres
const std::string kPlane = "+proj=tmerc +lat_0=47 +lon_0=-40 +k=1 +x_0=0 +y_0=0 +datum=WGS84 +units=m";

std::string text_of(const char* how, double value) {
  char text[64];
  std::snprintf(text, sizeof text, how, value);
  return text;
}

std::string wkt_of(const Line& line, const char* open, const char* close) {
  std::string text = open;
  for (const XY at : line) text += text_of("%.4f ", at.x) + text_of("%.4f,", at.y);
  text.back() = ' ';
  return text + close;
}

/// A layer made by ogr2ogr from a table of well-known text.
std::string layer(const Scratch& scratch, const std::string& name, const std::string& rows) {
  const std::string csv = scratch.write(name + "_wkt.csv", "wkt,depth_m\n" + rows);
  const std::string out = scratch.path(name + ".gpkg");
  const Result made =
      run("ogr2ogr -f GPKG -oo GEOM_POSSIBLE_NAMES=wkt -oo KEEP_GEOM_COLUMNS=NO -oo "
          "AUTODETECT_TYPE=YES -a_srs '" +
          kPlane + "' " + out + " " + csv);
  INFO(made.text);
  REQUIRE(made.code == 0);
  return out;
}

std::string shore_file(const Scratch& scratch, const known::KnownLake& lake) {
  return layer(scratch, "shore", "\"" + wkt_of(known::shore_ring(lake), "POLYGON((", "))") + "\",0\n");
}

std::string contour_file(const Scratch& scratch, const known::KnownLake& lake) {
  std::string rows;
  for (const DepthContour& contour : known::contours(lake)) {
    rows += "\"" + wkt_of(contour.line, "LINESTRING(", ")") + "\"," + text_of("%.2f", contour.depth.value()) + "\n";
  }
  return layer(scratch, "contours", rows);
}

json gridded(const Scratch& scratch, const std::string& how) {
  const Run run = run_castplan(scratch, "grid " + how + " --json --out " + scratch.path("depth.tif"));
  INFO(how << "\n" << run.err);
  REQUIRE(run.code == 0);
  return json::parse(run.out);
}

/// Soundings as text: how each number is written, and what parts them.
std::string table(const std::vector<Sounding>& soundings, double unit, char parted, bool comma) {
  std::string text;
  for (const Sounding& each : soundings) {
    std::string row = text_of("%.3f", each.at.x) + parted + text_of("%.3f", each.at.y) + parted +
                      text_of("%.4f", static_cast<double>(each.depth.value()) * unit) + "\n";
    if (comma) std::replace(row.begin(), row.end(), '.', ',');
    text += row;
  }
  return text;
}

}  // namespace

// R = 500 (1 + 0.2 cos 3t) m, 20 m deep: area pi R0^2 (1 + 0.2^2 / 2), volume 20 m x area / 2, by integration.
TEST_CASE("grid: a lobed lake from its contours, by its formula") {
  const Scratch scratch;
  const auto lake = known::lobed();
  const std::string files = "--contours " + contour_file(scratch, lake) + " --shoreline " + shore_file(scratch, lake);
  const json told = gridded(scratch, files + " --cell 5m");
  const double area = std::numbers::pi * 250000 * 1.02;
  CHECK(told["area_m2"].get<double>() == Approx(area).epsilon(0.003));
  CHECK(told["volume_m3"].get<double>() == Approx(area * 10).epsilon(0.005));
  CHECK(told["mean_depth_m"].get<double>() == Approx(10).margin(0.05));
  CHECK(told["max_depth_m"].get<double>() == Approx(20).margin(0.3));
  CHECK(told["flat_share"].get<double>() < 0.005);
  CHECK(told["rejected"]["on land"] == 0);
  CHECK(told["cross_validation"]["folds"] == 5);
  CHECK(told["cross_validation"]["rmse_m"].get<double>() < 1.0);
  CHECK(std::abs(told["cross_validation"]["bias_m"].get<double>()) < 0.2);

  // what another reader finds in the file
  const Result info = run("gdalinfo -stats --config GDAL_PAM_ENABLED NO " + scratch.path("depth.tif"));
  CHECK_THAT(info.text, Contains("NoData Value=-9999") && Contains("Unit Type: m") && Contains("Band 2") &&
                            Contains("CROSS_VALIDATION_RMSE_M=") && Contains("CAUTION=Not for navigation"));
  const Result middle = run("gdallocationinfo -valonly -wgs84 " + scratch.path("depth.tif") + " -40 47");
  CHECK(std::stod(middle.text) == Approx(20).margin(0.3));
}

TEST_CASE("grid: equal bytes at one and two threads, and another plan of the file when it is written again") {
  const Scratch scratch;
  const auto lake = known::ridge();
  const std::string files = "--contours " + contour_file(scratch, lake) + " --shoreline " + shore_file(scratch, lake);
  gridded(scratch, files + " --threads 1");
  const std::string one = read(scratch.path("depth.tif"));
  gridded(scratch, files + " --threads 2");
  CHECK(read(scratch.path("depth.tif")) == one);
  gridded(scratch, files + " --cell 10m");
  CHECK(read(scratch.path("depth.tif")) != one);
}

TEST_CASE("grid: one sonar log told in metres, in feet, as heights, with decimal commas") {
  const Scratch scratch;
  const auto lake = known::paraboloid();
  const auto log = known::tracks(lake);
  const std::string shore = " --cell 5m --crs '" + kPlane + "' --shoreline " + shore_file(scratch, lake);
  const std::string metres = scratch.write("log.csv", "x,y,depth_m\n" + table(log, 1, ',', false));
  const json told = gridded(scratch, "--soundings " + metres + shore);
  // 20 m (1 - r^2 / 500^2): area pi 500^2, mean half of the greatest depth
  CHECK(told["area_m2"].get<double>() == Approx(std::numbers::pi * 250000).epsilon(0.003));
  CHECK(told["max_depth_m"].get<double>() == Approx(20).margin(0.2));
  CHECK(told["mean_depth_m"].get<double>() == Approx(10).margin(0.05));
  const auto same = [&](const std::string& how) {
    const json other = gridded(scratch, how + shore);
    INFO(how);
    for (const char* key : {"max_depth_m", "mean_depth_m"}) {
      CHECK(other[key].get<double>() == Approx(told[key].get<double>()).margin(0.011));
    }
    CHECK(other["area_m2"] == told["area_m2"]);
    CHECK(other["rejected"] == told["rejected"]);
  };
  same("--soundings " + scratch.write("ft.csv", "x,y,depth_ft\n" + table(log, 1 / 0.3048, ',', false)));
  same("--unit m --soundings " + scratch.write("high.csv", "x,y,depth\n" + table(log, -1, ',', false)));
  same("--soundings " + scratch.write("comma.csv", "x;y;depth_m\n" + table(log, 1, ';', true)));
  same("--unit m --soundings " + scratch.write("plain.xyz", table(log, 1, ' ', false)));
  same("--unit m --columns x=a,y=b,depth=c --soundings " +
       scratch.write("told.csv", "a,b,c\n" + table(log, 1, ',', false)));
}

// A digitised outline often crosses itself by a hair where it closes: here a loop of 20 m out over the land. The lake
// stays what it was, but for the loop, 0.03 % of its area.
TEST_CASE("grid: a shoreline that crosses itself is mended") {
  const Scratch scratch;
  const auto lake = known::paraboloid();
  const auto grid_in = [&](const Ring& ring) {
    const std::string shore = layer(scratch, "crossed", "\"" + wkt_of(ring, "POLYGON((", "))") + "\",0\n");
    const std::string csv = scratch.write("log.csv", "x,y,depth_m\n" + table(known::tracks(lake), 1, ',', false));
    return gridded(scratch, "--soundings " + csv + " --crs '" + kPlane + "' --cell 5m --shoreline " + shore);
  };
  Ring ring = known::shore_ring(lake);
  ring.insert(ring.begin() + 1, {{ring[0] + XY{20, 12}}, {ring[0] + XY{20, -12}}});
  REQUIRE_FALSE(invalidity({{.outer = ring, .holes = {}}}).empty());
  const json told = grid_in(ring);
  CHECK(told["area_m2"].get<double>() == Approx(std::numbers::pi * 250000).epsilon(0.003));
  CHECK(told["mean_depth_m"].get<double>() == Approx(10).margin(0.05));
  CHECK(told["max_depth_m"].get<double>() == Approx(20).margin(0.2));
}

// A shoreline layer often holds every lake of a county: a second one, 3 km away, of which nobody has a depth.
TEST_CASE("grid: areas of the shoreline without a depth are left out, and it is said") {
  const Scratch scratch;
  const auto lake = known::paraboloid();
  Ring other = known::shore_ring(lake);
  for (XY& at : other) at = at + XY{3000, 0};
  const std::string shore = layer(scratch, "county",
                                  "\"" + wkt_of(other, "POLYGON((", "))") + "\",0\n\"" +
                                      wkt_of(known::shore_ring(lake), "POLYGON((", "))") + "\",0\n");
  const std::string csv = scratch.write("log.csv", "x,y,depth_m\n" + table(known::tracks(lake), 1, ',', false));
  const Run run = run_castplan(scratch, "grid --soundings " + csv + " --crs '" + kPlane + "' --cell 5m --shoreline " +
                                            shore + " --json --out " + scratch.path("depth.tif"));
  INFO(run.err);
  REQUIRE(run.code == 0);
  CHECK(json::parse(run.out)["area_m2"].get<double>() == Approx(std::numbers::pi * 250000).epsilon(0.003));
  CHECK_THAT(run.err, Contains("1 of the 2 areas of the shoreline hold no depth"));
}

TEST_CASE("grid: every sounding that is not used is counted and can be had with its reason") {
  const Scratch scratch;
  const auto lake = known::paraboloid();
  auto log = known::tracks(lake);
  const std::size_t good = log.size();
  log[500].depth = Metres32(59.0F);                                                          // a spike
  log.push_back(known::sounding({900, 0}, 5));                                               // on land
  log.push_back(known::sounding(log[100].at, static_cast<double>(log[100].depth.value())));  // twice
  const std::string csv = scratch.write("log.csv", "x,y,depth_m\n" + table(log, 1, ',', false));
  const json told = gridded(scratch, "--soundings " + csv + " --crs '" + kPlane + "' --shoreline " +
                                         shore_file(scratch, lake) + " --rejected " + scratch.path("left_out.csv"));
  CHECK(told["rejected"]["spike"] == 1);
  CHECK(told["rejected"]["on land"] == 1);
  CHECK(told["rejected"]["duplicate"] == 1);
  const std::string left_out = read(scratch.path("left_out.csv"));
  CHECK_THAT(left_out, Contains(",59.00,\"log.csv\",501,spike") &&
                           Contains(",5.00,\"log.csv\"," + std::to_string(good + 1) + ",on land"));
  CHECK(std::count(left_out.begin(), left_out.end(), '\n') == 4);
}

TEST_CASE("grid: what is missing is said, with the mend, and nothing is written") {
  const Scratch scratch;
  const auto lake = known::paraboloid();
  const std::string shore = shore_file(scratch, lake);
  const std::string csv = scratch.write("log.csv", "x,y,z\n0,0,10\n10,0,11\n20,0,12\n");
  struct Bad {
    std::string how;
    int code;
    std::string says;
  };
  for (const Bad& bad :
       {Bad{"", 2, "--soundings FILE"},
        Bad{"--soundings " + csv + " --crs '" + kPlane + "' --unit m", 3, "no shoreline"},
        Bad{"--soundings " + csv + " --crs '" + kPlane + "' --shoreline " + shore, 3, "--unit"},
        Bad{"--soundings " + csv + " --unit m --shoreline " + shore, 3, "crs"},
        Bad{"--soundings nowhere.csv --unit m --shoreline " + shore, 3, "nowhere.csv"},
        Bad{"--columns x=a,q=b --soundings " + csv, 2, "--columns"}, Bad{"--cell -5m --soundings " + csv, 2, "--cell"},
        Bad{"--cell wide --soundings " + csv, 2, "--cell wide"},
        Bad{"--unit cubits --soundings " + csv, 2, "--unit cubits"},
        Bad{"--sense up --soundings " + csv, 2, "--sense up"},
        Bad{"--surface high --soundings " + csv, 2, "--surface high"},
        Bad{"--transducer low --soundings " + csv, 2, "--transducer low"},
        Bad{"--threads -1 --soundings " + csv, 2, "--threads -1"},
        Bad{"--threads two --soundings " + csv, 2, "two is no whole number"}, Bad{kSample, 3, "nothing to grid"}}) {
    const Run run = run_castplan(scratch, "grid " + bad.how + " --out " + scratch.path("none.tif"));
    INFO(bad.how << "\n" << run.err);
    CHECK(run.code == bad.code);
    CHECK_THAT(run.err, Contains(bad.says));
    CHECK(read(scratch.path("none.tif")).empty());
  }
  const Run folder = run_castplan(scratch, "grid --contours " + contour_file(scratch, lake) + " --shoreline " + shore +
                                               " --out " + scratch.path("no/such/folder/depth.tif"));
  INFO(folder.err);
  CHECK(folder.code == 4);
  CHECK_THAT(folder.err, Contains("no/such/folder/depth.tif: cannot be written") && Contains("--out"));
  CHECK_THAT(folder.err, !Contains(".castplan-"));
}

TEST_CASE("scout on a lake file with contours and soundings grids first, for today's level") {
  const Scratch scratch;
  const auto lake = known::holes();
  shore_file(scratch, lake);
  contour_file(scratch, lake);
  scratch.write("log.csv", "x,y,depth_m\n" + table(known::tracks(lake, {.apart = 150.0}), 1, ',', false));
  const auto planned = [&](const std::string& level) {
    const std::string file = scratch.write(
        "lake.toml",
        "name = \"Three holes\"\n[depth]\ncell = \"5 m\"\nsource = \"made up\"\n[[depth.contours]]\nfile = "
        "\"contours.gpkg\"\n[[depth.soundings]]\nfile = \"log.csv\"\ncrs = \"" +
            kPlane + "\"\n[shoreline]\nfile = \"shore.gpkg\"\n" + level);
    const Run run = run_castplan(
        scratch, "scout " + file + " --water-temp 66F --trend rising --json --out " + scratch.path("plan"));
    INFO(run.err);
    REQUIRE(run.code == 0);
    return json::parse(run.out);
  };
  const json full = planned("");
  // three holes: two in the shallow bowl at least 1 m below their sills, and the deepest
  CHECK(full["counts"]["pool"] == 3);
  // the deepest point of the closed form, found on a fine grid
  double deepest = 0;
  for (double x = -250; x <= 250; x += 0.5) {
    for (double y = -300; y <= 300; y += 0.5) deepest = std::max(deepest, lake.depth({x, y}));
  }
  CHECK(full["lake"]["max_depth_m"].get<double>() == Approx(deepest).margin(0.3));
  CHECK(full["provenance"]["inputs"].size() == 4);  // the lake file and the three that it names
  const json low = planned("[level]\noffset = \"-1 m\"\n");
  CHECK(low["lake"]["max_depth_m"].get<double>() == Approx(deepest - 1).margin(0.3));
  CHECK(low["lake"]["area_m2"].get<double>() < 0.97 * full["lake"]["area_m2"].get<double>());
}
