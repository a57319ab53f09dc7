// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <chrono>
#include <cmath>

#include "castplan/season/date.hpp"
#include "cli/castplan_run.hpp"

using namespace castplan::programs;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

// A round lake of 450 m radius, 11 m deep, with a shelf of 2 m: a break to look for, and water below a thermocline.
struct Lake {
  Scratch scratch;
  Lake() {
    ascii_grid(scratch, "d.asc", 200, 200, [](int row, int col) {
      const double r = 5 * std::hypot(row - 99.5, col - 99.5);
      if (r >= 450) return -9999.0;
      return 2.0 * std::min(1.0, (450 - r) / 60) + 4.5 * (1 + std::tanh((300 - r) / 20));
    });
  }
  Run scout(const std::string& keys, const std::string& options) {
    scratch.write("lake.toml", keys.substr(0, keys.find('[')) +
                                   "name = \"Gull Water\"\n[depth]\nraster = \"d.asc\"\nunit "
                                   "= \"m\"\n" +
                                   (keys.find('[') == std::string::npos ? "" : keys.substr(keys.find('['))));
    return run_castplan(scratch,
                        "scout " + scratch.path("lake.toml") + " --out " + scratch.path("plan") + " " + options);
  }
  json conditions() { return json_in(scratch.path("plan/summary.json"))["conditions"]; }
  json summary() { return json_in(scratch.path("plan/summary.json")); }
  json spots() { return json_in(scratch.path("plan/spots.geojson"))["features"]; }
};

// Warm to 5 m, 8 C from 8 m down; oxygen gone below a depth.
std::string profile_rows(const std::string& date, double surface, double oxygen_to) {
  std::string text = "date,depth_m,temp_c,oxygen_mg_l\n";
  for (int z = 0; z <= 11; ++z) {
    const double half = (surface - 8) / 2;
    text += date + "," + std::to_string(z) + "," + std::to_string(8 + half - half * std::tanh((z - 6.5) / 1.2)) + "," +
            (z <= oxygen_to ? "9" : "0.5") + "\n";
  }
  return text;
}

}  // namespace

TEST_CASE("a thermocline is predicted from the lake's area, and a fresh profile beats it") {
  Lake lake;
  REQUIRE(lake.scout("", "--quiet --water-temp 20C --trend rising").code == 0);
  const double area = lake.summary()["lake"]["area_m2"];
  // Hanna (1990), area form: log10 z = 0.185 log10 A + 0.842
  const double hanna = std::pow(10, 0.185 * std::log10(area / 1e6) + 0.842);
  CHECK(lake.conditions()["thermocline_m"] == Approx(hanna).margin(0.006));
  CHECK(lake.conditions()["thermocline_range_m"][0] == Approx(0.75 * hanna).margin(0.006));
  CHECK(lake.conditions()["thermocline_source"] == "predicted");
  CHECK(lake.conditions()["sun"].is_null());  // no date

  lake.scratch.write("p.csv", profile_rows("2026-06-18", 20, 99));
  const Run run = lake.scout("[conditions]\nprofile = \"p.csv\"\n", "--date 2026-06-20");
  REQUIRE(run.code == 0);
  CHECK(lake.conditions()["thermocline_m"] == Approx(6.5).margin(0.3));  // the middle of the fall
  CHECK(lake.conditions()["thermocline_source"] == "profile");
  CHECK(lake.conditions()["water_temp_source"] == "profile");
  CHECK(lake.conditions()["water_temp_c"] == Approx(20).margin(0.01));
  for (const char* words : {"measured on 2026-06-18", "sunrise", "weighs nothing"}) {
    CHECK_THAT(run.out, Contains(words));
    CHECK_THAT(read(lake.scratch.path("plan/map.html")), Contains(words));
  }

  REQUIRE(lake.scout("water = \"river\"\n", "--quiet --water-temp 20C --trend rising").code == 0);
  CHECK(lake.conditions()["thermocline_m"].is_null());
}

TEST_CASE("no spot where the profile has no oxygen") {
  Lake lake;
  const std::string keys = "[conditions]\nsecchi = \"3 m\"\nprofile = \"p.csv\"\n";
  const auto deepest = [&](double oxygen_to) {
    lake.scratch.write("p.csv", profile_rows("2026-06-18", 20, oxygen_to));
    const Run run = lake.scout(keys, "--date 2026-06-20 --spots 40");
    REQUIRE(run.code == 0);
    double most = 0;
    for (const auto& spot : lake.spots()) {
      most = std::max(most, spot["properties"]["target_depth_m"].get<double>());
    }
    REQUIRE(!lake.spots().empty());
    return most;
  };
  CHECK(deepest(99) > 3 + 6 / 8.5);  // else the rest shows nothing
  // 9 mg/l at 3 m, 0.5 at 4 m: 3 mg/l at 3 + 6 / 8.5
  CHECK(deepest(3) < 3 + 6 / 8.5);
  CHECK_THAT(read(lake.scratch.path("plan/summary.json")), Contains("under 3 mg/l of oxygen"));
}

TEST_CASE("a temperature out of a profile or the air stops as a reading does, the air with its error") {
  Lake lake;
  lake.scratch.write("p.csv", profile_rows("2026-07-18", 25, 99));
  REQUIRE(lake.scout("[conditions]\nprofile = \"p.csv\"\n", "--quiet --date 2026-07-20").code == 0);
  CHECK(lake.summary()["advisory"]["level"] == "stop");
  CHECK(lake.spots().empty());
  std::string air = "date,temp_c\n";
  const auto first = std::chrono::sys_days(castplan::parse_date("2026-05-01"));
  for (int i = 0; i < 81; ++i) air += castplan::date_text(castplan::Date(first + std::chrono::days(i))) + ",22.5\n";
  lake.scratch.write("air.csv", air);
  REQUIRE(lake.scout("[conditions]\nair_temps = \"air.csv\"\n", "--quiet --date 2026-07-20").code == 0);
  CHECK(lake.conditions()["water_temp_source"] == "model");
  CHECK(lake.conditions()["water_temp_c"] == 22.5);
  // 22.5 C give or take 2 C: the upper end is over 75 F
  CHECK(lake.summary()["advisory"]["level"] == "stop");
  CHECK(lake.spots().empty());
  // a reading beats the model
  REQUIRE(lake.scout("[conditions]\nair_temps = \"air.csv\"\n", "--quiet --date 2026-07-20 --water-temp 20C").code ==
          0);
  CHECK(lake.conditions()["water_temp_source"] == "given");
  CHECK(!lake.spots().empty());
  // 16.5 C, give or take 2 C, may be the spawn (to 15.6 C)
  std::string cool = air;
  for (auto at = cool.find("22.5"); at != std::string::npos; at = cool.find("22.5")) cool.replace(at, 4, "16.5");
  lake.scratch.write("air.csv", cool);
  REQUIRE(lake.scout("[conditions]\nair_temps = \"air.csv\"\n", "--quiet --date 2026-07-20").code == 0);
  CHECK(lake.conditions()["phases"] == json({"spawn"}));
  CHECK(lake.spots().empty());
}

TEST_CASE("times are those of the lake's zone, else of UTC, and named") {
  Lake lake;  // near 45.5 N 40 W
  REQUIRE(lake.scout("time_zone = \"Etc/GMT+3\"\n", "--quiet --date 2026-06-20").code == 0);
  const std::string local = lake.conditions()["sun"];
  CHECK_THAT(local, Contains("Etc/GMT+3, UTC-03:00"));
  REQUIRE(lake.scout("", "--quiet --date 2026-06-20").code == 0);
  const std::string utc = lake.conditions()["sun"];
  CHECK_THAT(utc, Contains("UTC; the lake file names no time_zone"));
  const auto hour = [](const std::string& text) { return std::stoi(text.substr(text.find("sunrise ") + 8, 2)); };
  CHECK(hour(utc) == hour(local) + 3);
  const Run bad = lake.scout("time_zone = \"Kestrel/Time\"\n", "--date 2026-06-20");
  CHECK(bad.code == 3);
  CHECK_THAT(bad.err, Contains("lake.toml: time_zone: ") && Contains("expected an IANA name"));
}

TEST_CASE("wind from an option or a table, and what is too rough is said first") {
  Lake lake;
  const std::string table =
      "time,speed_mps,gust_mps,from_deg\n2026-06-20T03:00Z,18,25,10\n2026-06-20T15:00Z,6,8.5,230\n"
      "2026-06-20T18:00Z,4,5,90\n2026-06-21T15:00Z,14,19,10\n";
  lake.scratch.write("w.csv", table);
  const std::string keys = "time_zone = \"Etc/GMT+3\"\n[conditions]\nwind = \"w.csv\"\n[boat]\ntype = ";
  REQUIRE(lake.scout(keys + "\"motor\"\n", "--quiet --date 2026-06-20").code == 0);
  // midnight's storm is over at first light
  CHECK_THAT(lake.conditions()["wind"].get<std::string>(),
             Contains("6 m/s from the southwest (230 degrees), gusts 8 m/s"));
  CHECK_THAT(lake.summary()["cautions"][0].get<std::string>(), Contains("an open motor boat can take"));
  REQUIRE(lake.scout(keys + "\"canoe\"\n", "--quiet --date 2026-06-20").code == 0);
  CHECK_THAT(lake.summary()["cautions"][0].get<std::string>(), Contains("Too rough for a canoe"));
  REQUIRE(lake.scout(keys + "\"canoe\"\n", "--quiet --date 2026-06-20 --wind '3 mph from N'").code == 0);
  CHECK(lake.conditions()["wind"] == "1 m/s from the north (0 degrees)");
  CHECK_THAT(lake.summary()["cautions"][0].get<std::string>(), !Contains("rough") && !Contains("Wind near"));
  REQUIRE(lake.scout(keys + "\"canoe\"\n", "--quiet").code == 0);
  CHECK(lake.conditions()["wind"].is_null());
  const Run bad = lake.scout("", "--wind '12 from 230'");
  CHECK(bad.code == 2);
  CHECK_THAT(bad.err, Contains("--wind") && Contains("12 mph from 230"));
}
