// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "cli/castplan_run.hpp"
#include "support/csv.hpp"

using namespace castplan::programs;

namespace {

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

/// How many spots each file of a plan carries, by reading every file back.
std::map<std::string, std::size_t> spots_by_file(const std::string& folder) {
  std::map<std::string, std::size_t> spots;
  for (const auto& [name, bytes] : files_in(folder)) {
    if (name == "spots.geojson") spots[name] = nlohmann::json::parse(bytes)["features"].size();
    if (name == "features.geojson") {
      spots[name] = 0;
      const auto features = nlohmann::json::parse(bytes);
      for (const auto& feature : features["features"]) {
        spots[name] += feature["properties"]["kind"] == "spot" ? 1 : 0;
      }
    }
    if (name == "summary.json") spots[name] = nlohmann::json::parse(bytes)["counts"]["spot"].get<std::size_t>();
    if (name == "spots.csv") spots[name] = count_of(bytes, "\r\n") - 1;
    if (name.ends_with(".gpx")) spots["gpx"] += count_of(bytes, "<type>spot</type>");
    // an id names a spot wherever it stands: in a button, a row, a script or a comment
    if (name == "map.html") spots[name] = count_of(bytes, "spot-45.");
  }
  return spots;
}

void none_anywhere(const std::string& folder, const std::string& reason) {
  const auto spots = spots_by_file(folder);
  CHECK(spots.size() == 6);
  for (const auto& [file, count] : spots) {
    INFO(file);
    CHECK(count == 0);
  }
  for (const auto& [name, bytes] : files_in(folder)) {
    INFO(name);
    if (name != "spots.csv") CHECK(bytes.find(reason) != std::string::npos);
  }
  CHECK(json_in(folder + "/summary.json")["advisory"]["level"] == "stop");
}

}  // namespace

TEST_CASE("a stop in a folder that holds an older plan leaves no spot in any file") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  const auto scout = [&](const std::string& lake, const std::string& options) {
    const Run run = run_castplan(scratch, "scout " + lake + " --quiet --out " + folder + " " + options);
    INFO(run.err);
    REQUIRE(run.code == 0);
  };
  scout(kSample, "");
  for (const auto& [file, count] : spots_by_file(folder)) {
    INFO(file);
    if (file != "features.geojson") CHECK(count > 0);
  }
  SECTION("heat, at exactly 75 F") {
    scout(kSample, "--water-temp 75F");
    none_anywhere(folder, "75 F");
  }
  SECTION("the spawn") {
    scout(kSample, "--water-temp 12C --trend rising");
    none_anywhere(folder, "spawn");
  }
  SECTION("a lake that holds a species at its stop stops another species too, whatever phase is asked for") {
    scout(kSample, "--water-temp 77F --species smallmouth-bass --phase summer");
    none_anywhere(folder, "Muskellunge");
  }
  SECTION("outside the user's own open dates") {
    const std::string raster = ascii_grid(scratch, "bowl.asc", 40, 40, small_bowl);
    const std::string lake = scratch.write("lake.toml",
                                           "name = \"Invented Tarn\"\n[depth]\nraster = \"bowl.asc\"\nunit = \"m\"\n"
                                           "[rules]\ntext = \"t\"\nsource = \"s\"\nchecked = 2026-03-01\n"
                                           "open = [[\"05-25\", \"11-30\"]]\n");
    scout(lake, "--date 2026-04-20 --water-temp 18C");
    none_anywhere(folder, "open");
    scout(lake, "--date 2026-06-20 --water-temp 18C");
    CHECK(json_in(folder + "/summary.json")["advisory"]["level"] != "stop");
    CHECK(spots_by_file(folder)["spots.geojson"] > 0);
  }
}

TEST_CASE("the hottest water without a stop still has spots, with the caution on them") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  REQUIRE(run_castplan(scratch, "scout " + kSample + " --quiet --out " + folder + " --water-temp 74.9F").code == 0);
  CHECK(json_in(folder + "/summary.json")["advisory"]["level"] == "caution");
  const auto spots = json_in(folder + "/spots.geojson")["features"];
  REQUIRE_FALSE(spots.empty());
  for (const auto& spot : spots) CHECK_FALSE(spot["properties"]["cautions"].empty());
}

TEST_CASE("an overridden stop brings the spots back with the stop and the reason on all of them") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  const std::string why = "tagging study, permit in hand";
  const Run run = run_castplan(
      scratch, "scout " + kSample + " --out " + folder + " --water-temp 76F --override-stop '" + why + "'");
  INFO(run.err);
  REQUIRE(run.code == 0);
  CHECK(run.out.find(why) != std::string::npos);
  const auto spots = json_in(folder + "/spots.geojson")["features"];
  REQUIRE_FALSE(spots.empty());
  for (const auto& spot : spots) {
    const std::string cautions = spot["properties"]["cautions"].dump();
    CHECK(cautions.find("75 F") != std::string::npos);
    CHECK(cautions.find(why) != std::string::npos);
  }
  for (const auto& [name, bytes] : files_in(folder)) {
    INFO(name);
    CHECK(bytes.find(why) != std::string::npos);
  }
  CHECK(json_in(folder + "/summary.json")["advisory"]["level"] == "stop");
}
