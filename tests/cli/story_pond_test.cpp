// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/planar.hpp"
#include "cli/story.hpp"

// A pond of three hectares through one year, planned again and again into one folder: before the season, in a warm
// April, through a cold snap once the spawn has begun, after it, and in a heat wave in July. The limits are those of
// the profile: spawn from 8 to 15.6 C, ground left alone until 17 C, stop at 75 F (23.9 C).

using namespace castplan;
using namespace castplan::story;

namespace {

/// A bean of 5 m cells, 5.5 m deep, with a bar across and a sheltered shallow cove in the west.
double pond(int row, int col) {
  const double x = (col - 29.5) * 5, y = (24.5 - row) * 5;
  const double r = std::hypot(x / 130, y / 85);
  const double cove = std::hypot((x + 105) / 40, (y - 20) / 45);
  const double body = r < 1 ? 5.5 * (1 - std::pow(r, 2.5)) - 1.6 * std::exp(-std::pow((x - 30) / 14, 2)) : -1;
  const double shallow = cove < 1 ? 1.6 * (1 - cove * cove) : -1;
  const double depth = std::max(body, shallow);
  return depth > 0.05 ? depth : -9999;
}

struct Pond : Story {
  Pond() {
    ascii_grid(scratch, "pond.asc", 50, 60, pond);
    scratch.write("pond.toml",
                  "name = \"Threll Pond\"\nholds = [\"muskellunge\"]\n[depth]\nraster = "
                  "\"pond.asc\"\nunit = \"m\"\n[conditions]\nsecchi = \"2 m\"\nwater_temps = \"temps.csv\"\n");
  }
  json on(const std::string& date, const std::string& options = "") const {
    castplan("scout pond.toml --out plan --quiet " + (date.empty() ? "" : "--date " + date + " ") + options);
    return summary();
  }
};

/// Spots in every file, and no file of an older plan among them.
void fished(const Pond& pond, const std::string& phase) {
  INFO(phase);
  CHECK(pond.summary()["conditions"]["phases"] == json::array({phase}));
  for (const auto& [file, count] : spots_by_file(pond.folder)) {
    INFO(file);
    if (file != "features.geojson" && file.find("pass") == std::string::npos) CHECK(count > 0);
  }
  for (const auto& [name, bytes] : files_in(pond.folder)) {
    INFO(name);
    CHECK_FALSE(name.starts_with("waypoints-"));
  }
}

}  // namespace

TEST_CASE("story: a small pond through a spring cold snap and a July heat wave, in one folder") {
  Pond pond;
  // before the season: every phase of the year, one file of waypoints each
  pond.series("2026-04-12", {3.5, 4, 4.4, 5, 5.4, 5.9, 6.3});
  pond.on("");
  CHECK(files_in(pond.folder).count("waypoints-summer.gpx") == 1);
  CHECK(count_of(read(pond.folder + "/waypoints-summer.gpx"), "<type>spot</type>") > 0);
  CHECK(count_of(read(pond.folder + "/waypoints-spawn.gpx"), "<type>spot</type>") == 0);

  pond.on("2026-04-12");
  fished(pond, "pre-spawn");

  // the spawn begins: 8 C is passed on the way up
  pond.series("2026-05-01", {6, 6.6, 7.2, 7.9, 8.6, 9.4, 10.2});
  pond.on("2026-05-01");
  none_anywhere(pond.folder, "spawn");

  // and a cold snap does not end it, whatever is tried
  pond.series("2026-05-07", {7.2, 7.9, 8.6, 9.4, 10.2, 9, 7.5, 6.4, 5.6, 5.1, 4.9});
  for (const char* tried : {"", "--water-temp 5C", "--water-temp 41F --trend falling", "--phase pre-spawn",
                            "--species smallmouth-bass", "--compare 5C 6C"}) {
    INFO(tried);
    pond.on("2026-05-07", tried);
    none_anywhere(pond.folder, "spawn");
  }

  // over: the mean of five days is past 15.6 C. The ground is left alone until 17 C
  pond.series("2026-05-28", {9, 10, 11, 12, 13, 14, 15, 15.8, 16.2, 16.5, 16.4, 16.6, 16.5});
  pond.on("2026-05-28");
  fished(pond, "post-spawn");
  const json ground = pond.features("spawning-ground");
  REQUIRE_FALSE(ground.empty());
  for (const json& spot : pond.spots()) {
    for (const json& piece : ground) {
      const json parts = piece["geometry"]["type"] == "Polygon" ? json::array({piece["geometry"]["coordinates"]})
                                                                : piece["geometry"]["coordinates"];
      for (const json& part : parts) {
        Polygon area;
        for (const json& at : part[0]) area.outer.push_back(place_of(at));
        const PreparedShape shape(Polygons{area});
        CHECK_FALSE(shape.covers(place_of(spot["geometry"]["coordinates"])));
        CHECK_FALSE(shape.covers(place_of(spot["properties"]["target"])));
      }
    }
  }

  // July: warm, then too warm, then a day that looks cooler while the five days before it are not
  pond.series("2026-07-10", {20.5, 21, 21.4, 22, 22.3, 22.4});
  CHECK(pond.on("2026-07-10")["advisory"]["level"] == "caution");  // from 70 F (21.1 C)
  fished(pond, "summer");
  pond.everywhere("four hours after sunrise");
  pond.series("2026-07-18", {22.4, 23, 23.6, 24.4, 25, 25.3, 25.2});
  pond.on("2026-07-18");
  none_anywhere(pond.folder, "75 F");
  pond.series("2026-07-19", {23, 23.6, 24.4, 25, 25.3, 25.2, 23});
  for (const char* tried : {"", "--water-temp 72F", "--phase early-summer", "--species smallmouth-bass"}) {
    INFO(tried);
    pond.on("2026-07-19", tried);
    none_anywhere(pond.folder, "75 F");
  }

  // and fished again in September
  pond.series("2026-09-20", {19.5, 19, 18.6, 18.2, 17.9, 17.5});
  CHECK(pond.on("2026-09-20")["advisory"]["level"] == "none");
  fished(pond, "early-autumn");
}
