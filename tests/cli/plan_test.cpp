// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <set>

#include "cli/castplan_run.hpp"

using namespace castplan::programs;

namespace {

const std::string kSummer = "scout " + kSample + " --water-temp 66F --trend rising --date 2026-06-20 --quiet --out ";

std::set<std::string> names_in(const std::string& folder) {
  std::set<std::string> names;
  for (const auto& [name, bytes] : files_in(folder)) names.insert(name);
  return names;
}

}  // namespace

TEST_CASE("without a temperature every phase is planned; with one, that one, and the old files go") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  REQUIRE(run_castplan(scratch, "scout " + kSample + " --quiet --out " + folder).code == 0);
  const auto phases = json_in(folder + "/summary.json")["conditions"]["phases"];
  REQUIRE(phases.size() == 9);
  for (const auto& phase : phases) {
    CHECK(names_in(folder).count("waypoints-" + phase.get<std::string>() + ".gpx") == 1);
  }
  std::map<std::string, int> last;
  const auto spots = json_in(folder + "/spots.geojson");
  for (const auto& spot : spots["features"]) {
    CHECK(spot["properties"]["rank"] == ++last[spot["properties"]["phase"].get<std::string>()]);
  }
  CHECK(last.size() == 7);
  CHECK(last.count("summer") == 1);
  CHECK(last.count("spawn") == 0);
  CHECK(last.count("heat-stop") == 0);
  REQUIRE(run_castplan(scratch, kSummer + folder).code == 0);
  CHECK(names_in(folder) == std::set<std::string>{"features.geojson", "map.html", "spots.csv", "spots.geojson",
                                                  "summary.json", "waypoints.gpx"});
  CHECK(json_in(folder + "/summary.json")["conditions"]["phases"] == nlohmann::json({"early-summer"}));
}

TEST_CASE("a temperature that stands for two phases needs a trend or a date") {
  const Scratch scratch;
  const std::string scout = "scout " + kSample + " --quiet --water-temp 12C --out " + scratch.path("plan");
  const Run unclear = run_castplan(scratch, scout);
  INFO(unclear.err);
  CHECK(unclear.code == 2);
  CHECK(unclear.err.find("--trend") != std::string::npos);
  CHECK_FALSE(std::filesystem::exists(scratch.path("plan")));
  REQUIRE(run_castplan(scratch, scout + " --date 2026-10-20").code == 0);
  CHECK(json_in(scratch.path("plan/summary.json"))["conditions"]["phases"] == nlohmann::json({"early-autumn"}));
  REQUIRE(run_castplan(scratch, scout + " --date 2026-05-10").code == 0);
  CHECK(json_in(scratch.path("plan/summary.json"))["conditions"]["phases"] == nlohmann::json({"spawn"}));
}

TEST_CASE("equal bytes at one and two threads, on a second run, and from another folder") {
  const Scratch scratch;
  REQUIRE(run_castplan(scratch, kSummer + scratch.path("one") + " --threads 1").code == 0);
  const auto one = files_in(scratch.path("one"));
  REQUIRE(run_castplan(scratch, kSummer + scratch.path("two") + " --threads 2").code == 0);
  CHECK(files_in(scratch.path("two")) == one);
  REQUIRE(run_castplan(scratch, kSummer + scratch.path("one")).code == 0);
  CHECK(files_in(scratch.path("one")) == one);
  REQUIRE(run_castplan(scratch, kSummer + "here", scratch.path()).code == 0);
  CHECK(files_in(scratch.path("here")) == one);
  for (const auto& [name, bytes] : one) {
    INFO(name);
    CHECK(bytes.find(CASTPLAN_SOURCE_DIR) == std::string::npos);
    CHECK(bytes.find(scratch.path()) == std::string::npos);
  }
}

TEST_CASE("--json prints one object: the summary plus the files") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  const Run run = run_castplan(scratch, "scout " + kSample + " --water-temp 66F --trend rising --json --out " + folder);
  REQUIRE(run.code == 0);
  auto printed = nlohmann::json::parse(run.out);
  const auto listed = printed["files"];
  printed.erase("files");
  CHECK(printed == json_in(folder + "/summary.json"));
  CHECK(listed.size() == files_in(folder).size());
  for (const auto& path : listed) CHECK(std::filesystem::exists(path.get<std::string>()));
}

TEST_CASE("the report says figures, features, spots with reasons, cautions and files") {
  const Scratch scratch;
  const Run run =
      run_castplan(scratch, "scout " + kSample + " --water-temp 66F --trend rising --out " + scratch.path("plan"));
  REQUIRE(run.code == 0);
  for (const char* part : {"Lake Ossilby", "ha of water", "Early summer", "drop-offs", "Best spots", "degrees true",
                           "Lures:", "Not for navigation", "Rules as you gave them", "map.html"}) {
    INFO(part);
    CHECK(run.out.find(part) != std::string::npos);
  }
  const Run feet = run_castplan(
      scratch, "scout " + kSample + " --water-temp 66F --trend rising --units imperial --out " + scratch.path("plan"));
  CHECK(feet.out.find("acres") != std::string::npos);
  CHECK(feet.out.find(" ft of water") != std::string::npos);
  // what programs read stays SI
  CHECK(json_in(scratch.path("plan/spots.geojson"))["features"][0]["properties"]["boat_depth_m"].get<double>() < 20);
}

TEST_CASE("quiet is silent, and formats are chosen") {
  const Scratch scratch;
  const Run run = run_castplan(scratch, kSummer + scratch.path("plan") + " --formats csv,gpx");
  CHECK(run.code == 0);
  CHECK(run.out.empty());
  CHECK(run.err.empty());
  CHECK(names_in(scratch.path("plan")) == std::set<std::string>{"spots.csv", "summary.json", "waypoints.gpx"});
}

TEST_CASE("every verb has help, and the version is said") {
  const Scratch scratch;
  const Run help = run_castplan(scratch, "--help");
  CHECK(help.code == 0);
  CHECK(help.err.empty());
  for (const char* verb : {"scout", "species"}) {
    CHECK(help.out.find(verb) != std::string::npos);
    const Run each = run_castplan(scratch, std::string(verb) + " --help");
    CHECK(each.code == 0);
    CHECK(each.out.size() > 100);
  }
  // a verb that is not built is not listed
  for (const char* verb : {"\n  trip", "\n  publish", "\n  review", "\n  batch"})
    CHECK(help.out.find(verb) == std::string::npos);
  CHECK(run_castplan(scratch, "--version").out.find("castplan 0.") == 0);
}

TEST_CASE("species are listed and printed; a changed copy changes the plan and is named in it") {
  const Scratch scratch;
  const Run list = run_castplan(scratch, "species");
  CHECK(list.code == 0);
  for (const char* name : {"muskellunge", "northern-pike", "smallmouth-bass"}) {
    CHECK(list.out.find(name) != std::string::npos);
  }
  const Run shown = run_castplan(scratch, "species muskellunge");
  CHECK(shown.out == read(CASTPLAN_SOURCE_DIR "/src/season/species/muskellunge.toml"));
  std::string own = shown.out;
  const auto at = own.find("stop_from = { value = \"75 F\"");
  REQUIRE(at != std::string::npos);
  scratch.write("own.toml", own);
  REQUIRE(run_castplan(scratch, kSummer + scratch.path("plan") + " --species-file " + scratch.path("own.toml")).code ==
          0);
  const std::string inputs = json_in(scratch.path("plan/summary.json"))["provenance"]["inputs"].dump();
  CHECK(inputs.find("own.toml") != std::string::npos);
  scratch.write("bad.toml", "name = \"x\"\n");
  const Run bad = run_castplan(scratch, kSummer + scratch.path("plan") + " --species-file " + scratch.path("bad.toml"));
  CHECK(bad.code == 3);
  CHECK(bad.err.find("bad.toml") != std::string::npos);
}

TEST_CASE("other programs read as much as the summary counts") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  REQUIRE(run_castplan(scratch, kSummer + folder).code == 0);
  const auto counts = json_in(folder + "/summary.json")["counts"];
  int features = 0;
  for (const auto& [kind, count] : counts.items()) features += kind == "spot" ? 0 : count.get<int>();
  const auto said = [&](int count) { return "Feature Count: " + std::to_string(count); };
  CHECK(run("ogrinfo -ro -al -so " + folder + "/features.geojson").text.find(said(features)) != std::string::npos);
  CHECK(run("ogrinfo -ro -al -so " + folder + "/spots.geojson").text.find(said(counts["spot"])) != std::string::npos);
  const Result gps = run("gpsbabel -i gpx -f " + folder + "/waypoints.gpx -o csv -F -");
  CHECK(gps.code == 0);
  CHECK(run("xmllint --noout " + folder + "/waypoints.gpx").code == 0);
}
