// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// What the page says of spots in figures and words, in both units.
#include <catch2/catch.hpp>
#include <cmath>
#include <regex>
#include <string>
#include <vector>

#include "castplan/write/text.hpp"
#include "support/plans.hpp"
#include "write/page_text.hpp"

using namespace castplan;
using namespace page_text;

TEST_CASE("a row says the cast in words, in true degrees and in both units") {
  const std::string page = read_in("m", map_html(sample::plan({.one_phase = true})));
  // from (140, 0) to (158, 4) on the plane: atan2(18, 4) = 77.5 degrees, sqrt(18^2 + 4^2) = 18.44 m; both ends are
  // printed to 0.11 m, so 0.16 m and 0.5 degrees may go, and another half degree in rounding
  const std::regex cast(
      "<strong>east-northeast</strong>, toward the deep side<br>(\\d{3})° true, ([0-9.]+) m \\((\\d+) ft\\)");
  std::smatch found;
  REQUIRE(std::regex_search(page, found, cast));
  CHECK(std::stod(found[1]) == Approx(77.5).margin(1.0));
  CHECK(std::stod(found[2]) == Approx(18.44).margin(0.21));
  CHECK(std::stod(found[3]) == Approx(18.44 / 0.3048).margin(1.1));
  CHECK(has(page, "A steep edge beside deep water, with weeds on its top."));
  CHECK(has(page, "fits 64 %, counts 50 %"));
  CHECK(has(page, "14 casts, 13 minutes"));
  CHECK(has(page, "A shoal lies 40 m to the west."));
  CHECK(has(page, "Not assessed, and so not in the score: light."));
  CHECK(has(read_in("ft", map_html(sample::plan({.one_phase = true}))),
            "<strong data-part=\"sounder\">8 ft (2.4 m)</strong>"));
}

TEST_CASE("the cast says which side it goes to, by the sounder's reading and the depth that is fished") {
  Plan plan = sample::plan({.one_phase = true});
  Spot& spot = plan.phases[0].spots[0];
  spot.boat_depth = Metres(5.0);
  spot.target_depth = Metres(2.0);
  CHECK(has(map_html(plan), "<strong>east-northeast</strong>, toward the shallow side<br>"));
  spot.target_depth = Metres(5.1);
  CHECK(has(map_html(plan), "<strong>east-northeast</strong>, along the same depth<br>"));
  spot.target_depth = Metres(NAN);
  CHECK(has(map_html(plan), "<strong>east-northeast</strong><br>"));
}

TEST_CASE("sentences about the order name spots as their buttons do") {
  Plan plan = sample::plan();
  plan.phases[0].order = {12, 1, {1}, {{1, 2}}, {2}};
  const std::string several = map_html(plan);
  CHECK(has(several, "Spot A1 is a clear pick: among the first 1 in nine draws of ten."));
  CHECK(has(several, "Near ties, whose order tells little: A1 to A2."));
  CHECK(has(several, "Sound the depth at spot A2 first: the order turns most on it."));
  Plan alone = sample::plan({.one_phase = true});
  alone.phases[0].order = plan.phases[0].order;
  CHECK(has(map_html(alone), "Near ties, whose order tells little: 1 to 2."));
}

TEST_CASE("the page opens in the plan's units and holds both") {
  for (const Units units : {Units::metric, Units::imperial}) {
    const std::string page = map_html(sample::plan({.units = units}));
    const std::string own = units == Units::metric ? "m" : "ft";
    CHECK(has(page, "<body class=\"" + own + "\">"));
    CHECK(has(page, "name=\"units\" value=\"" + own + "\" checked>"));
    CHECK(count(page, " value=\"m\" checked>") + count(page, " value=\"ft\" checked>") == 1);
    CHECK(count(page, "<span class=\"in-m\">") == count(page, "<span class=\"in-ft\">"));
  }
}

namespace {

// Bounds hold what the file holds, outlines too.
std::string without_bounds(const std::string& gpx) { return std::regex_replace(gpx, std::regex("<bounds [^>]*>"), ""); }

}  // namespace

TEST_CASE("the files in the page are those of the folder, but for outlines in the files of a whole year") {
  for (const bool one_phase : {true, false}) {
    const Plan plan = sample::plan({.one_phase = one_phase});
    const std::string page = map_html(plan);
    std::vector<OutputFile> files = waypoint_files(plan);
    CHECK(files.size() == (one_phase ? 1 : 2));
    for (OutputFile& file : files) {
      CHECK(has(file.bytes, "<trk>"));
      // tracks end a file: gpxType of the schema
      if (!one_phase) file.bytes = file.bytes.substr(0, file.bytes.find("  <trk>")) + "</gpx>\n";
    }
    if (one_phase) files.push_back({"spots.csv", spots_csv(plan)});
    CHECK(count(page, "<a download=") == files.size());
    for (const OutputFile& file : files) {
      INFO(file.name);
      const std::string link = between(page, "<a download=\"" + file.name + "\" href=\"data:", "\"");
      const std::string held = decoded(link.substr(link.find(";base64,") + 8));
      CHECK(without_bounds(held) == without_bounds(file.bytes));
      CHECK((!one_phase || held == file.bytes));
    }
  }
}

TEST_CASE("advisory and valid temperatures stay in sight") {
  const std::string alone = map_html(sample::plan({.one_phase = true}));
  CHECK(has(alone, "Holds for: <span id=\"fixed-holds\">4 to 8 C (39 to 46 F), rising</span>"));
  CHECK_FALSE(has(alone, "id=\"fixed-advisory\""));
  CHECK(has(map_html(sample::plan()), "<span id=\"fixed-holds\">as each phase says</span>"));
  CHECK(has(map_html(sample::plan({.one_phase = true, .stop = true})),
            "<a class=\"stop\" id=\"fixed-advisory\" href=\"#advisory\">Stop</a>"));
}

TEST_CASE("a factor measured in metres stands in the reader's unit first, whatever follows the unit") {
  Plan plan = sample::plan({.units = Units::imperial, .one_phase = true});
  plan.phases[0].spots[0].why[1] = {"cover", 3.048, "m away", 0.97, 0.5, "design choice"};  // ten feet exactly
  CHECK(has(read_in("ft", map_html(plan)), "cover: 10 ft (3.0 m) away<"));
  CHECK(has(read_in("m", map_html(plan)), "cover: 3.0 m (10 ft) away<"));
}

TEST_CASE("places stand in degrees and decimal minutes, all four quarters of the earth") {
  struct Row {
    double lon, lat;
    std::string lat_text, lon_text;
  };
  // minutes are sixtieths of a degree: the pool of the sample lies at its centre
  const std::vector<Row> rows{{-40.0, 45.5, "45° 30.000' N,", "040° 00.000' W"},
                              {151.125, -33.25, "33° 15.000' S,", "151° 07.500' E"},
                              {0.0, 0.0, "00° 00.000' N,", "000° 00.000' E"},
                              {-0.0125, 59.999999, "60° 00.000' N,", "000° 00.750' W"}};
  for (const Row& row : rows) {
    const std::string page = map_html(sample::plan({.centre = {Longitude{row.lon}, Latitude{row.lat}}}));
    INFO(row.lat_text);
    CHECK(
        has(page, "<span class=\"axis\">" + row.lat_text + "</span> <span class=\"axis\">" + row.lon_text + "</span>"));
  }
}
