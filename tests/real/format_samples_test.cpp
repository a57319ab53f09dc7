// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// GPX samples of the Python library gpxpy (Apache-2.0). See README.md.
#include <catch2/catch.hpp>

#include "castplan/geo/error.hpp"
#include "real/real_lakes.hpp"
#include "support/programs.hpp"

using namespace castplan;
using namespace castplan::real;

namespace {

const std::vector<std::string>& gpx_files() {
  static const std::vector<std::string> all{"cerknicko-jezero.gpx",
                                            "cerknicko-jezero-without-elevations.gpx",
                                            "gpx1.0_with_all_fields.gpx",
                                            "gpx1.1_with_all_fields.gpx",
                                            "route.gpx",
                                            "track-with-extremes.gpx",
                                            "unicode_with_bom.gpx"};
  return all;
}

std::optional<std::string> samples() {
  return folder("format-samples",
                {"cerknicko-jezero.gpx", "cerknicko-jezero-without-elevations.gpx", "gpx1.0_with_all_fields.gpx",
                 "gpx1.1_with_all_fields.gpx", "route.gpx", "track-with-extremes.gpx", "unicode_with_bom.gpx"});
}

// How often a tag opens in the text.
std::size_t tags(const std::string& text, const std::string& tag) {
  std::size_t count = 0;
  for (auto at = text.find("<" + tag + " "); at != std::string::npos; at = text.find("<" + tag + " ", at + 1)) ++count;
  return count;
}

}  // namespace

TEST_CASE("Format samples: every point of every GPX file is read") {
  const auto data = samples();
  if (!data) return;
  const Projection degrees = Projection::geographic();
  std::size_t points = 0;
  for (const std::string& name : gpx_files()) {
    const std::string text = programs::read(*data + "/" + name);
    for (const auto& [tag, layer] : {std::pair<std::string, std::string>{"wpt", "waypoints"},
                                     {"rtept", "route_points"},
                                     {"trkpt", "track_points"}}) {
      INFO(name << " " << layer);
      const std::size_t wanted = tags(text, tag);  // counted in the file's own text
      const VectorOptions layer_of_file{*data + "/" + name, layer, ""};
      if (wanted == 0) {
        CHECK_THROWS_AS(read_vector(layer_of_file, degrees), InputError);
        continue;
      }
      const auto records = read_vector(layer_of_file, degrees);
      CHECK(records.size() == wanted);
      points += records.size();
    }
  }
  note("Format samples: {} points in {} GPX files", points, gpx_files().size());
  CHECK(points > 0);
}

TEST_CASE("Format samples: a GPX file behind a byte order mark") {
  const auto data = samples();
  if (!data) return;
  const std::string path = *data + "/unicode_with_bom.gpx";
  REQUIRE(programs::read(path).rfind("\xEF\xBB\xBF", 0) == 0);
  const auto records = read_vector({path, "", ""}, Projection::geographic());  // its only layer that holds anything
  REQUIRE(records.size() == 1);
  CHECK(records[0].attributes.at("name") == "test");
  const auto& points = std::get<Points>(records[0].geometry);
  REQUIRE(points.size() == 1);
  CHECK(points[0].x == Approx(3.515386).margin(1e-9));  // the file's own text: lon, lat
  CHECK(points[0].y == Approx(43.309634).margin(1e-9));
}

TEST_CASE("Format samples: a GPX file of several layers asks which one is meant") {
  const auto data = samples();
  if (!data) return;
  CHECK_THROWS_WITH(
      read_vector({*data + "/cerknicko-jezero.gpx", "", ""}, Projection::geographic()),
      Catch::Contains("several layers; say which") && Catch::Contains("waypoints") && Catch::Contains("tracks"));
  // lines hold the points that the text has, each segment of the track as a line
  const auto tracks = read_vector({*data + "/cerknicko-jezero.gpx", "tracks", ""}, Projection::geographic());
  std::size_t points = 0;
  for (const Record& track : tracks) {
    for (const Line& line : std::get<Lines>(track.geometry)) points += line.size();
  }
  CHECK(points == tags(programs::read(*data + "/cerknicko-jezero.gpx"), "trkpt"));
}
