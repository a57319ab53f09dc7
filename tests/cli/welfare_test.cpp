// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <chrono>

#include "castplan/geo/planar.hpp"
#include "castplan/geo/projection.hpp"
#include "castplan/season/date.hpp"
#include "cli/one_lake.hpp"
#include "cli/spots_in_files.hpp"

// The rules are the project's own decisions (see tests/season/welfare_test.cpp); here every file is read back.

using namespace castplan;
using namespace castplan::one_lake;

namespace {

/// The invented lake as a lake file with keys of its own, scouted again and again into one folder.
struct Water {
  Scratch scratch;
  std::string folder = scratch.path("plan");
  Water() {
    ascii_grid(scratch, "d.asc", kRows, kCols, depth_m);
    scout("", "");  // an older plan, full of spots, before each test
    for (const auto& [file, count] : spots_by_file(folder)) {
      INFO(file);
      if (file != "features.geojson") REQUIRE(count > 0);
    }
  }
  Run scout(const std::string& tables, const std::string& options, const std::string& head = "") {
    scratch.write("lake.toml",
                  "name = \"Invented Water\"\n" + head + "[depth]\nraster = \"d.asc\"\nunit = \"m\"\n" + tables);
    const Run run =
        run_castplan(scratch, "scout " + scratch.path("lake.toml") + " --quiet --out " + folder + " " + options);
    INFO(run.err);
    REQUIRE(run.code == 0);
    return run;
  }
  void series(const std::string& last, const std::vector<double>& celsius) {
    auto day = std::chrono::sys_days(parse_date(last)) - std::chrono::days(celsius.size() - 1);
    std::string rows = "date,temp_c\n";
    for (const double t : celsius) {
      rows += date_text(Date(day)) + "," + std::to_string(t) + "\n";
      day += std::chrono::days(1);
    }
    scratch.write("temps.csv", rows);
  }
  json summary() { return json_in(folder + "/summary.json"); }
  json spots() { return json_in(folder + "/spots.geojson")["features"]; }
  json features(const std::string& kind) { return features_of_kind(folder, kind); }
  std::string level() { return summary()["advisory"]["level"]; }
  /// Every file carries the words.
  void everywhere(const std::string& words) {
    for (const auto& [name, bytes] : files_in(folder)) {
      INFO(name << " carries \"" << words << "\"");
      CHECK(said_in(folder, name, bytes).find(words) != std::string::npos);
    }
  }
  /// A layer of one point.
  void point_layer(const std::string& name, const json& lonlat, const std::string& attribute) {
    const json layer = {{"type", "FeatureCollection"},
                        {"features",
                         {{{"type", "Feature"},
                           {"properties", {{"TYPE", attribute}}},
                           {"geometry", {{"type", "Point"}, {"coordinates", lonlat}}}}}}};
    scratch.write(name, layer.dump());
  }
};

const std::string kSeries = "[conditions]\nwater_temps = \"temps.csv\"\n";
const std::string kHolds = "holds = [\"muskellunge\"]\n";

Polygons rings_of(const json& features, const Projection& plane) {
  Polygons all;
  for (const auto& feature : features) {
    const json& geometry = feature["geometry"];
    const json parts = geometry["type"] == "Polygon" ? json::array({geometry["coordinates"]}) : geometry["coordinates"];
    for (const auto& part : parts) {
      Polygon polygon;
      for (std::size_t number = 0; number < part.size(); ++number) {
        Ring ring;
        for (const auto& at : part[number]) {
          ring.push_back(plane.from_lonlat({{at[0].get<double>()}, {at[1].get<double>()}}));
        }
        if (number == 0) {
          polygon.outer = ring;
        } else {
          polygon.holes.push_back(ring);
        }
      }
      all.push_back(polygon);
    }
  }
  return all;
}

XY place_of(const json& at, const Projection& plane) {
  return plane.from_lonlat({{at[0].get<double>()}, {at[1].get<double>()}});
}

}  // namespace

TEST_CASE("the spawn, once begun, stops through a cold snap whatever is tried") {
  Water water;
  water.series("2026-05-15", {6, 7, 8, 9, 10, 11, 10, 8, 7, 6, 6});
  SECTION("by the series alone") { water.scout(kSeries, "--date 2026-05-15"); }
  SECTION("with a cold reading of one's own") { water.scout(kSeries, "--date 2026-05-15 --water-temp 5C"); }
  SECTION("with a trend of one's own") { water.scout(kSeries, "--date 2026-05-15 --water-temp 4C --trend falling"); }
  SECTION("by a phase") { water.scout(kSeries, "--date 2026-05-15 --phase pre-spawn"); }
  SECTION("by another species of the same lake") {
    water.scout(kSeries, "--date 2026-05-15 --species smallmouth-bass", kHolds);
  }
  SECTION("two weeks after the last reading") { water.scout(kSeries, "--date 2026-05-29 --water-temp 6C"); }
  SECTION("without a date") { water.scout(kSeries, "--water-temp 6C --trend rising"); }
  SECTION("with fewer formats, which leaves nothing of the older plan") {
    water.scout(kSeries, "--date 2026-05-15 --formats json");
    CHECK(files_in(water.folder).size() == 1);
    CHECK(water.level() == "stop");
    CHECK(water.summary()["counts"]["spot"] == 0);
    return;
  }
  none_anywhere(water.folder, "spawn");
}

TEST_CASE("a reading near a stop that is older than 36 hours is a stop") {
  Water water;
  const auto read_at = [&](const std::string& taken, const std::string& date) {
    water.scout("[conditions]\nwater_temp = \"22.5 C\"\nwater_temp_taken = " + taken + "\n", "--date " + date,
                "time_zone = \"Etc/GMT+3\"\n");
    return water.level();
  };
  CHECK(read_at("2026-07-10T07:30:00", "2026-07-11") == "caution");  // 28.5 hours before noon
  CHECK(read_at("2026-07-09T23:59:00", "2026-07-11") == "stop");     // 36 hours and a minute
  none_anywhere(water.folder, "36 hours");
  CHECK(read_at("2026-07-10T00:00:00", "2026-07-11") == "caution");  // 36 hours
  CHECK(read_at("2026-07-10T02:59:00Z", "2026-07-11") == "stop");    // 23:59 of the 9th by the lake's clock
  CHECK(read_at("2026-07-10", "2026-07-11") == "caution");
  CHECK(read_at("2026-07-09", "2026-07-11") == "stop");
  CHECK(read_at("2026-07-20T07:30:00", "2026-07-11") == "stop");  // of another time of the summer, after it
  // an option is read for the plan; a time that is not said is named
  water.scout("[conditions]\nwater_temp = \"22.5 C\"\nwater_temp_taken = 2026-07-01T07:30:00\n",
              "--date 2026-07-11 --water-temp 22.5C");
  CHECK(water.level() == "caution");
  water.scout("[conditions]\nwater_temp = \"22.5 C\"\n", "--date 2026-07-11");
  CHECK(water.level() == "caution");
  CHECK(water.summary()["notes"].dump().find("water_temp_taken") != std::string::npos);
}

TEST_CASE("a hotter reading of a series or a profile beside a given temperature is the one that stops") {
  Water water;
  water.series("2026-07-20", {21, 21, 21, 21, 21, 21, 21, 21, 21, 24.1});
  water.scout(kSeries, "--date 2026-07-20 --water-temp 68F");
  none_anywhere(water.folder, "24.1 C");
  water.scratch.write("profile.csv",
                      "date,depth_m,temp_c,oxygen_mg_l\n2026-07-20,0,24.2,8\n2026-07-20,3,23,8\n2026-07-20,6,12,7\n");
  water.scout("[conditions]\nprofile = \"profile.csv\"\n", "--date 2026-07-20 --water-temp 68F");
  none_anywhere(water.folder, "24.2 C");
}

TEST_CASE("caution: mornings only with an end, no photographs in the air, on everything") {
  Water water;
  const std::string zone = "time_zone = \"Etc/GMT+3\"\n";
  water.scout("", "--date 2026-07-20 --water-temp 71F", zone);
  CHECK(water.level() == "caution");
  // the end is four hours after the sunrise that the plan prints, to the quarter of an hour before
  const std::string sun = water.summary()["conditions"]["sun"];
  const auto at = sun.find("sunrise ");
  REQUIRE(at != std::string::npos);
  const int minutes = std::stoi(sun.substr(at + 8, 2)) * 60 + std::stoi(sun.substr(at + 11, 2)) + 240;
  char end[32];
  std::snprintf(end, sizeof end, "%02d:%02d", minutes / 60, minutes % 60 / 15 * 15);
  water.everywhere("stop by " + std::string(end) + " (Etc/GMT+3, UTC-03:00)");
  water.everywhere("do not lift a fish out of the water for a photograph");
  for (const auto& spot : water.spots()) {
    const std::string cautions = spot["properties"]["cautions"].dump();
    CHECK(cautions.find("stop by") != std::string::npos);
    CHECK(cautions.find("photograph") != std::string::npos);
  }
  // without a date the rule stands alone; in cooler water nothing of it does
  water.scout("", "--water-temp 71F --trend rising", zone);
  water.everywhere("in the morning only, until four hours after sunrise");
  water.scout("", "--date 2026-07-20 --water-temp 66F", zone);
  for (const auto& [name, bytes] : files_in(water.folder)) {
    INFO(name);
    CHECK(bytes.find("in the morning only") == std::string::npos);
  }
  // a stop that is set aside in hot water keeps the measures
  water.scout("", "--date 2026-07-20 --water-temp 76F --override-stop 'tagging, permit in hand'", zone);
  water.everywhere("stop by " + std::string(end));
}

TEST_CASE("at caution no spot lies near an inflow that is cool or not known to be warm") {
  Water water;
  const std::string warm = "--date 2026-07-20 --water-temp 22.5C";
  water.scout("", warm);
  REQUIRE_FALSE(water.spots().empty());
  const json best = water.spots()[0]["properties"]["target"];
  const auto nearest_with = [&](const std::string& attribute, const std::string& options) {
    water.point_layer("inflow.geojson", best, attribute);
    water.scout(
        "[[structure]]\nfile = \"inflow.geojson\"\nattribute = \"TYPE\"\nmap = { cool = \"inflow\", warm = "
        "\"inflow\", unknown = \"inflow\" }\n",
        options);
    double nearest = 1e9;
    for (const auto& spot : water.spots()) {
      nearest = std::min(nearest, apart_m(spot["properties"]["target"], best));
      nearest = std::min(nearest, apart_m(spot["geometry"]["coordinates"], best));
    }
    return nearest;
  };
  CHECK(nearest_with("warm", warm) < 30);
  CHECK(nearest_with("cool", warm) >= 49.9);
  CHECK(water.summary()["notes"].dump().find("left alone") != std::string::npos);
  CHECK(nearest_with("unknown", warm) >= 49.9);
  CHECK(nearest_with("cool", "--date 2026-07-20 --water-temp 22.5C --species largemouth-bass") < 50);  // no strain yet
}

TEST_CASE("the fish of deep water bring the caution of their way up") {
  Scratch scratch;
  // a round lake that falls to 30 m, for trout below the thermocline
  ascii_grid(scratch, "d.asc", 200, 200, [](int row, int col) {
    const double r = 5 * std::hypot(row - 99.3, col - 99.8) + 14 * std::sin(3 * std::atan2(row - 99.3, col - 99.8));
    return r >= 470 ? -9999.0 : std::min(30.0, (470 - r) * 0.06 + 6 * (1 + std::tanh((330 - r) / 12)));
  });
  // the profile as it is, but for a limit within the depths of this lake
  std::string own = run_castplan(scratch, "species lake-trout").out;
  const std::string limit = "deep_release = { value = \"15 m\"";
  REQUIRE(own.find(limit) != std::string::npos);
  own.replace(own.find(limit), limit.size(), "deep_release = { value = \"10 m\"");
  const Run run = run_castplan(scratch, "scout " + scratch.path("d.asc") + " --unit m --quiet --out " +
                                            scratch.path("plan") + " --species-file " + scratch.write("own.toml", own) +
                                            " --water-temp 20C --trend rising --spots 30");
  INFO(run.err);
  REQUIRE(run.code == 0);
  int deep = 0, shallow = 0;
  const json spots = json_in(scratch.path("plan/spots.geojson"))["features"];
  for (const auto& spot : spots) {
    const bool below = spot["properties"]["target_depth_m"] > 10.0;
    (below ? deep : shallow) += 1;
    CHECK((spot["properties"]["cautions"].dump().find("may not recover") != std::string::npos) == below);
  }
  CAPTURE(deep, shallow);
  CHECK(deep > 0);
  // fished below the thermocline that the size of the lake predicts, not in the warm water above it
  const double thermocline = json_in(scratch.path("plan/summary.json"))["conditions"]["thermocline_m"];
  for (const auto& spot : spots) CHECK(spot["properties"]["target_depth_m"] > thermocline - 1);
}

TEST_CASE("rules that were checked more than 12 months before the date say so on everything") {
  Water water;
  const auto rules = [](const std::string& checked) {
    return "[rules]\ntext = \"one rod a person\"\nsource = \"invented\"\n" +
           (checked.empty() ? "" : "checked = " + checked + "\n");
  };
  water.scout(rules("2025-06-01"), "--date 2026-06-02 --water-temp 66F");
  for (const auto& [name, bytes] : files_in(water.folder)) {
    INFO(name);
    if (name == "spots.csv") continue;  // a table of places; its cautions are those of each spot
    const std::string said = said_in(water.folder, name, bytes);
    CHECK(said.find("checked on 2025-06-01, more than 12 months before 2026-06-02") != std::string::npos);
    CHECK(said.find("one rod a person") != std::string::npos);
    CHECK(said.find("invented") != std::string::npos);
  }
  water.scout(rules("2025-06-02"), "--date 2026-06-02 --water-temp 66F");
  CHECK(water.summary()["cautions"].dump().find("12 months") == std::string::npos);
  water.scout(rules("2020-06-01"), "--water-temp 66F --trend rising");  // nobody knows what day it is
  CHECK(water.summary()["cautions"].dump().find("12 months") == std::string::npos);
  water.scout(rules(""), "--date 2026-06-02 --water-temp 66F");
  CHECK(water.summary()["cautions"].dump().find("last checked is not said") != std::string::npos);
}

TEST_CASE("closures hold on their dates, and all of them without a date") {
  Water water;
  water.scout("", "--water-temp 66F --trend rising");
  const json best = water.spots()[0]["properties"]["target"];
  water.point_layer("refuge.geojson", best, "");
  const std::string closure =
      "[[closure]]\nfile = \"refuge.geojson\"\nkind = \"no-fishing\"\nbuffer = \"60 m\"\nfrom = \"04-01\"\nto = "
      "\"05-31\"\n";
  const auto nearest = [&](const std::string& options) {
    water.scout(closure, options);
    double least = 1e9;
    for (const auto& spot : water.spots()) least = std::min(least, apart_m(spot["properties"]["target"], best));
    return least;
  };
  CHECK(nearest("--water-temp 66F --trend rising") > 55);
  CHECK(nearest("--water-temp 66F --date 2026-05-31") > 55);
  CHECK(nearest("--water-temp 66F --date 2026-06-01") < 30);
}

TEST_CASE("likely spawning ground carries no spot until 17 C and is drawn as a place to leave alone") {
  Water water;
  std::string weeds = "[conditions]\nsecchi = \"2.2 m\"\n";
  const Projection plane = Projection::from_text("EPSG:32624");
  water.scout(weeds, "--water-temp 16C --trend rising --spots 30");
  // wood along the edge of each piece, to be cast at
  json wood = {{"type", "FeatureCollection"}, {"features", json::array()}};
  const json pieces = water.features("spawning-ground");
  for (const auto& piece : pieces) {
    const json& geometry = piece["geometry"];
    const json parts = geometry["type"] == "Polygon" ? json::array({geometry["coordinates"]}) : geometry["coordinates"];
    for (const auto& part : parts) {
      for (const auto& ring : part) {
        for (std::size_t i = 0; i < ring.size(); i += 8) {
          wood["features"].push_back({{"type", "Feature"},
                                      {"properties", json::object()},
                                      {"geometry", {{"type", "Point"}, {"coordinates", ring[i]}}}});
        }
      }
    }
  }
  water.scratch.write("wood.geojson", wood.dump());
  weeds = "[[structure]]\nfile = \"wood.geojson\"\nkind = \"wood\"\n" + weeds;
  water.scout(weeds, "--water-temp 16C --trend rising --spots 30");
  const json ground = water.features("spawning-ground");
  REQUIRE_FALSE(ground.empty());
  const Polygons closed = rings_of(ground, plane);
  const auto inside = [&](const json& spots, const std::string& phase) {
    int count = 0;
    for (const auto& spot : spots) {
      if (spot["properties"]["phase"] != phase) continue;
      count += contains(closed, place_of(spot["properties"]["target"], plane)) ? 1 : 0;
      count += contains(closed, place_of(spot["geometry"]["coordinates"], plane)) ? 1 : 0;
    }
    return count;
  };
  REQUIRE_FALSE(water.spots().empty());
  CHECK(inside(water.spots(), "post-spawn") == 0);
  for (const auto& piece : ground) {
    CHECK_FALSE(piece["properties"]["reason"].get<std::string>().empty());
    CHECK(piece["properties"]["no_spots_in"] == "rising water of 5 to 17 C (41 to 63 F)");
    CHECK(piece["properties"]["confidence"] < 0.6);
  }
  const std::string page = read(water.folder + "/map.html");
  CHECK(page.find("data-kind=\"spawning-ground\"") != std::string::npos);
  CHECK(page.find("LEAVE ALONE") != std::string::npos);
  CHECK(water.summary()["notes"].dump().find("likely spawning ground") != std::string::npos);

  water.scout(weeds, "--water-temp 12C --trend rising");
  CHECK(water.features("spawning-ground").size() == ground.size());
  none_anywhere(water.folder, "spawn");

  water.scout(weeds, "--water-temp 17C --trend rising --spots 30");
  CHECK(water.features("spawning-ground").empty());
  CHECK(inside(water.spots(), "post-spawn") > 0);  // so that the test above can fail

  // before the season: by phase
  water.scout(weeds, "--spots 30");
  CHECK(water.features("spawning-ground").size() == ground.size());
  CHECK(inside(water.spots(), "pre-spawn") == 0);
  CHECK(inside(water.spots(), "post-spawn") == 0);
  CHECK(inside(water.spots(), "early-autumn") > 0);
  // the ground of what the lake holds keeps other plans away as well
  water.scout(weeds, "--water-temp 16C --trend rising --spots 30 --species walleye", "holds = [\"muskellunge\"]\n");
  CHECK(water.features("spawning-ground").size() == ground.size());
  CHECK(inside(water.spots(), "post-spawn") == 0);
}
