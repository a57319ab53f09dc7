// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>
#include <sstream>

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
  CHECK(names_in(folder) == std::set<std::string>{"contours-key.pdf", "contours.geojson", "contours.pdf",
                                                  "features.geojson", "glossary.pdf", "log.csv", "map.html",
                                                  "passes.geojson", "sheet.pdf", "spots.csv", "spots.geojson",
                                                  "summary.json", "to-check.csv", "to-check.pdf", "waypoints.gpx"});
  CHECK(json_in(folder + "/summary.json")["conditions"]["phases"] == nlohmann::json({"early-summer"}));
}

TEST_CASE("a temperature that stands for two phases needs a trend or a date") {
  const Scratch scratch;
  const std::string scout = "scout " + kSample + " --quiet --water-temp 12C --out " + scratch.path("plan");
  const Run unclear = run_castplan(scratch, scout);
  INFO(unclear.err);
  CHECK(unclear.code == 2);
  CHECK(unclear.out.empty());
  for (const char* part : {"--trend", "--date"}) CHECK(unclear.err.find(part) != std::string::npos);
  CHECK_FALSE(std::filesystem::exists(scratch.path("plan")));
  REQUIRE(run_castplan(scratch, scout + " --date 2026-10-20").code == 0);
  CHECK(json_in(scratch.path("plan/summary.json"))["conditions"]["phases"] == nlohmann::json({"early-autumn"}));
  REQUIRE(run_castplan(scratch, scout + " --date 2026-05-10").code == 0);
  CHECK(json_in(scratch.path("plan/summary.json"))["conditions"]["phases"] == nlohmann::json({"spawn"}));
}

TEST_CASE("equal bytes at one and two threads, on a second run, and from another folder") {
  const Scratch scratch;
  const std::string all = " --formats all";
  REQUIRE(run_castplan(scratch, kSummer + scratch.path("one") + all + " --threads 1").code == 0);
  const auto one = files_in(scratch.path("one"));
  REQUIRE(run_castplan(scratch, kSummer + scratch.path("two") + all + " --threads 2").code == 0);
  CHECK(files_in(scratch.path("two")) == one);
  REQUIRE(run_castplan(scratch, kSummer + scratch.path("one") + all).code == 0);
  CHECK(files_in(scratch.path("one")) == one);
  REQUIRE(run_castplan(scratch, kSummer + "here" + all, scratch.path()).code == 0);
  CHECK(files_in(scratch.path("here")) == one);
  for (const char* name : {"places.kml", "castplan.gpkg", "map.png", "map.svg", "fragment.html"}) {
    CHECK(one.count(name) == 1);
  }
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

TEST_CASE("without --out the plan goes into a folder named after the lake, where the program was started") {
  const Scratch scratch;
  REQUIRE(run_castplan(scratch, "scout " + kSample + " --quiet --formats csv", scratch.path()).code == 0);
  CHECK(names_in(scratch.path("ossilby-plan")) == std::set<std::string>{"spots.csv", "summary.json"});
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

TEST_CASE("every verb that is listed has help, and the version is said") {
  const Scratch scratch;
  const Run help = run_castplan(scratch, "--help");
  CHECK(help.code == 0);
  CHECK(help.err.empty());
  std::vector<std::string> listed;
  std::istringstream lines(help.out.substr(help.out.find("Subcommands:")));
  std::string line;
  for (std::getline(lines, line); std::getline(lines, line) && line.starts_with("  ");) {
    listed.push_back(line.substr(2, line.find(' ', 2) - 2));
  }
  REQUIRE(listed.size() >= 2);
  CHECK(listed.front() == "scout");
  for (const std::string& verb : listed) {
    INFO(verb);
    const Run each = run_castplan(scratch, verb + " --help");
    CHECK(each.code == 0);
    CHECK(each.err.empty());
    CHECK(each.out.size() > 100);
  }
  // a verb that is known but not listed would be one that is not built
  for (const char* verb : {"inspect", "grid", "trip", "publish", "review", "batch"}) {
    if (std::find(listed.begin(), listed.end(), verb) == listed.end()) CHECK(run_castplan(scratch, verb).code == 2);
  }
  const Run version = run_castplan(scratch, "--version");
  CHECK(version.code == 0);
  CHECK(version.out.find("castplan 0.") == 0);
}

TEST_CASE("species are listed and printed as they are") {
  const Scratch scratch;
  const Run list = run_castplan(scratch, "species");
  CHECK(list.code == 0);
  for (const char* name : {"muskellunge", "northern-pike", "smallmouth-bass", "largemouth-bass", "walleye"}) {
    INFO(name);
    CHECK(list.out.find(name) != std::string::npos);
    const Run shown = run_castplan(scratch, std::string("species ") + name);
    CHECK(shown.code == 0);
    CHECK(shown.out == read(CASTPLAN_SOURCE_DIR "/src/season/species/" + std::string(name) + ".toml"));
  }
}

TEST_CASE("a species profile of one's own: a copy plans the same, a changed copy plans what it says") {
  const Scratch scratch;
  const auto spots_with = [&](const std::string& options) {
    const Run run = run_castplan(scratch, kSummer + scratch.path("plan") + options);
    INFO(run.err);
    REQUIRE(run.code == 0);
    return json_in(scratch.path("plan/spots.geojson"))["features"];
  };
  const auto shipped = spots_with("");
  std::string own = run_castplan(scratch, "species muskellunge").out;
  scratch.write("own.toml", own);
  CHECK(spots_with(" --species-file " + scratch.path("own.toml")) == shipped);
  // depth counts in proportion from now on: x metres are worth x / 20, which is checked below on the printed numbers
  const auto phase = own.find("name = \"early-summer\"");
  const auto from = own.find("points = [[", own.find("depth = {", phase));
  const auto to = own.find("]]", from);
  REQUIRE(to != std::string::npos);
  own.replace(from, to + 2 - from, "points = [[0, 0], [20, 1]]");
  scratch.write("own.toml", own);
  const auto changed = spots_with(" --species-file " + scratch.path("own.toml"));
  CHECK(changed != shipped);
  REQUIRE_FALSE(changed.empty());
  for (const auto& spot : changed) {
    int depths = 0;
    for (const auto& why : spot["properties"]["why"]) {
      if (why["factor"] != "depth") continue;
      ++depths;
      CHECK(why["suitability"].get<double>() == Approx(why["value"].get<double>() / 20).margin(0.0006));
    }
    CHECK(depths == 1);
  }
  // the file is named with its digest, which coreutils' sha256sum gives too
  const std::string digest = run("sha256sum " + scratch.path("own.toml")).text.substr(0, 64);
  const auto inputs = json_in(scratch.path("plan/summary.json"))["provenance"]["inputs"];
  CHECK(std::find(inputs.begin(), inputs.end(), nlohmann::json{{"name", "own.toml"}, {"sha256", digest}}) !=
        inputs.end());
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
  for (const auto& [kind, count] : counts.items()) features += kind == "spot" || kind == "pass" ? 0 : count.get<int>();
  const auto said = [&](int count) { return "Feature Count: " + std::to_string(count); };
  CHECK(run("ogrinfo -ro -al -so " + folder + "/features.geojson").text.find(said(features)) != std::string::npos);
  CHECK(run("ogrinfo -ro -al -so " + folder + "/spots.geojson").text.find(said(counts["spot"])) != std::string::npos);
  CHECK(counts["spot"] == json_in(folder + "/spots.geojson")["features"].size());
  CHECK(run("ogrinfo -ro -al -so " + folder + "/passes.geojson").text.find(said(counts["pass"])) != std::string::npos);
  CHECK(counts["pass"] > 0);
  // gpsbabel writes a heading and one line a waypoint, with the names as they stand in the file
  const Result gps = run("gpsbabel -i gpx -f " + folder + "/waypoints.gpx -o unicsv -F -");
  CHECK(gps.code == 0);
  const std::string bytes = read(folder + "/waypoints.gpx");
  std::size_t marks = 0;
  for (auto at = bytes.find("<wpt "); at != std::string::npos; at = bytes.find("<wpt ", at + 1)) {
    ++marks;
    const auto name = bytes.find("<name>", at) + 6;
    CHECK(gps.text.find(",\"" + bytes.substr(name, bytes.find('<', name) - name) + "\",") != std::string::npos);
  }
  CHECK(marks >= counts["spot"].get<std::size_t>());
  CHECK(static_cast<std::size_t>(std::count(gps.text.begin(), gps.text.end(), '\n')) == marks + 1);
  CHECK(run("xmllint --noout " + folder + "/waypoints.gpx").code == 0);
}

TEST_CASE("standard error carries lines of ours alone, also for data that make GDAL talk") {
  const Scratch scratch;
  const auto ours_alone = [&](const std::string& lake, int code) {
    const Run run = run_castplan(scratch, "scout " + lake + " --out " + scratch.path("plan"));
    INFO(run.err);
    CHECK(run.code == code);
    std::istringstream lines(run.err);
    for (std::string line; std::getline(lines, line);) CHECK(line.starts_with("castplan: "));
  };
  ours_alone(kSample, 0);
  // a shapefile without its index, of which GDAL's own programs print an ERROR
  std::filesystem::create_directory(scratch.path("lake"));
  for (const auto& entry : std::filesystem::directory_iterator(CASTPLAN_SOURCE_DIR "/sample_rasters")) {
    std::filesystem::copy(entry.path(), scratch.path("lake"));
  }
  REQUIRE(std::filesystem::remove(scratch.path("lake/stumps.shx")));
  REQUIRE(run("ogrinfo -ro -so -al " + scratch.path("lake/stumps.shp")).text.find("ERROR") != std::string::npos);
  ours_alone(scratch.path("lake/ossilby.toml"), 3);
}

TEST_CASE("more threads than the machine has change no byte and print nothing") {
  const Scratch scratch;
  REQUIRE(run_castplan(scratch, kSummer + scratch.path("one") + " --threads 1").code == 0);
  for (const char* threads : {"3", "8", "64"}) {
    const Run run = run_castplan(scratch, kSummer + scratch.path("many") + " --threads " + threads);
    INFO(threads);
    CHECK(run.code == 0);
    CHECK(run.out.empty());
    CHECK(run.err.empty());
    CHECK(files_in(scratch.path("many")) == files_in(scratch.path("one")));
  }
}

// The sample lake with other words about its level and plants. 4.0264 m is log10 z = 0.66 log10 2.8 + 0.31 (Caffrey,
// Hoyer & Canfield 2007), 6.7139 m their envelope, log10 z = 0.53 log10 2.8 + 0.59.
TEST_CASE("what the lake file says of plants and level reaches the weed lines") {
  const Scratch scratch;
  std::filesystem::copy(CASTPLAN_SOURCE_DIR "/sample_rasters", scratch.path("lake"));
  const auto lines_with = [&](const std::string& from, const std::string& to) {
    std::string text = read(CASTPLAN_SOURCE_DIR "/sample_rasters/ossilby.toml");
    REQUIRE(text.find(from) != std::string::npos);
    text.replace(text.find(from), from.size(), to);
    const std::string lake = scratch.write("lake/ossilby.toml", text);
    const Run run = run_castplan(
        scratch, "scout " + lake + " --water-temp 66F --trend rising --quiet --out " + scratch.path("plan"));
    INFO(run.err);
    REQUIRE(run.code == 0);
    std::vector<nlohmann::json> found;
    const auto plan = json_in(scratch.path("plan/features.geojson"));
    for (const auto& feature : plan["features"]) {
      const auto& p = feature["properties"];
      if (p["kind"] == "weed-line" && p["edge"] == "outside" && p["source"] != "mapped") found.push_back(p);
    }
    REQUIRE(found.size() > 5);
    return found;
  };
  const auto has = [](const nlohmann::json& list, const char* word) {
    return std::find(list.begin(), list.end(), word) != list.end();
  };
  for (const auto& line : lines_with("secchi", "secchi")) {
    if (line["at_break"] == false) {
      CHECK(line["depth_m"] == 4.03);
      CHECK(line["depth_high_m"] == 6.71);
      CHECK(line["deepest_plant_m"] == 6.71);
    }
    CHECK_FALSE(has(line["not_assessed"], "level swing"));
    CHECK_FALSE(has(line["lowered_by"], "level swing"));
  }
  const std::string page = read(scratch.path("plan/map.html"));
  CHECK(page.find("last plants at 6.7 m") != std::string::npos);
  CHECK(page.find("could lie from") != std::string::npos);
  for (const auto& line : lines_with("yearly_range = \"0.4 m\"\n", "")) {
    CHECK(has(line["not_assessed"], "level swing"));
  }
  for (const auto& line : lines_with("yearly_range = \"0.4 m\"", "yearly_range = \"5 m\"")) {
    CHECK(has(line["lowered_by"], "level swing"));
    CHECK(line["density"] <= 0.2);
  }
  // seen by the user: no band, and nothing is known of the deepest plants
  for (const auto& line : lines_with("secchi = \"2.8 m\"", "weed_depth = \"3.5 m\"")) {
    if (line["at_break"] == true) continue;
    CHECK(line["depth_low_m"] == 3.5);
    CHECK(line["depth_high_m"] == 3.5);
    CHECK(line["deepest_plant_m"].is_null());
  }
}
