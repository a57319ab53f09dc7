// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <pugixml.hpp>

#include "cli/castplan_run.hpp"
#include "cli/spots_in_files.hpp"
#include "support/csv.hpp"
#include "support/pdf.hpp"

using namespace castplan::programs;

TEST_CASE("a stop in a folder that holds an older plan leaves no spot in any file") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  const auto scout = [&](const std::string& lake, const std::string& options) {
    const Run run =
        run_castplan(scratch, "scout " + lake + " --quiet --out " + folder +
                                  (options.find("--formats") == std::string::npos ? " --formats all " : " ") + options);
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
  SECTION("heat, with lines for a plotter asked for") {
    scout(kSample, "--water-temp 75F --gpx-line both");
    none_anywhere(folder, "75 F");
    CHECK(count_of(read(folder + "/waypoints.gpx"), "<rte>") == 0);
    CHECK(count_of(read(folder + "/waypoints.gpx"), "<type>pass</type>") == 0);
  }
  SECTION("the spawn") {
    scout(kSample, "--water-temp 12C --trend rising");
    none_anywhere(folder, "spawn");
  }
  SECTION("a lake that holds a species at its stop stops another species too, whatever phase is asked for") {
    scout(kSample, "--water-temp 77F --species smallmouth-bass --phase summer");
    none_anywhere(folder, "Muskellunge");
  }
  SECTION("a phase that is asked for does not beat a temperature that is known") {
    scout(kSample, "--water-temp 76F --phase summer");
    none_anywhere(folder, "75 F");
  }
  SECTION("a phase without fishing does not come back with the formats that are left out") {
    scout(kSample, "--water-temp 76F --formats json");
    const auto left = files_in(folder);
    CHECK(left.size() == 1);
    CHECK(left.count("summary.json") == 1);
    CHECK(left.begin()->second.find("spot-45.") == std::string::npos);
    CHECK(left.begin()->second.find("pass-45.") == std::string::npos);
  }
  SECTION("a phase without fishing, asked for by name") {
    scout(kSample, "--phase spawn");
    none_anywhere(folder, "spawn");
  }
  SECTION("a profile of the user's own, under another name, does not get round the stop of what the lake holds") {
    std::string own = run_castplan(scratch, "species northern-pike").out;
    const std::string name = "name = \"northern-pike\"";
    REQUIRE(own.find(name) != std::string::npos);
    own.replace(own.find(name), name.size(), "name = \"mere-pike\"");
    scout(kSample, "--water-temp 76F --species-file " + scratch.write("own.toml", own));
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
    // with no temperature it would be every phase of the year: none of them is open either
    scout(lake, "--date 2026-04-20");
    for (const auto& [name, bytes] : files_in(folder)) {
      INFO(name);
      CHECK(bytes.find("spot-45.") == std::string::npos);
      CHECK(bytes.find("pass-45.") == std::string::npos);
      if (name.ends_with(".gpx")) CHECK(count_of(bytes, "<type>spot</type>") == 0);
    }
    CHECK(json_in(folder + "/summary.json")["counts"]["spot"] == 0);
    CHECK(json_in(folder + "/summary.json")["advisory"]["level"] == "stop");
    scout(lake, "--date 2026-06-20 --water-temp 18C");
    CHECK(json_in(folder + "/summary.json")["advisory"]["level"] != "stop");
    CHECK(spots_by_file(folder)["spots.geojson"] > 0);
  }
}

TEST_CASE("the terminal and --json carry no spot at a stop either, and say why and when to look again") {
  const Scratch scratch;
  const std::string scout = "scout " + kSample + " --water-temp 76F --out " + scratch.path("plan");
  const Run report = run_castplan(scratch, scout);
  CHECK(report.code == 0);
  CHECK(report.out.find("75 F") != std::string::npos);
  CHECK(report.out.find("Best spots") == std::string::npos);
  CHECK(report.out.find("Boat N45") == std::string::npos);
  CHECK(report.out.find("past edges") == std::string::npos);
  CHECK(report.out.find("again") != std::string::npos);
  const Run printed = run_castplan(scratch, scout + " --json --quiet");
  CHECK(printed.code == 0);
  CHECK(printed.err.empty());
  const auto json = nlohmann::json::parse(printed.out);
  CHECK(json["advisory"]["level"] == "stop");
  CHECK(json["counts"]["spot"] == 0);
  CHECK(json["counts"]["pass"] == 0);
  CHECK(printed.out.find("spot-45.") == std::string::npos);
  CHECK(printed.out.find("pass-45.") == std::string::npos);
}

TEST_CASE("the hottest water without a stop still has spots, with the caution on them") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  REQUIRE(run_castplan(scratch, "scout " + kSample + " --quiet --out " + folder + " --water-temp 74.9F").code == 0);
  CHECK(json_in(folder + "/summary.json")["advisory"]["level"] == "caution");
  const auto spots = json_in(folder + "/spots.geojson")["features"];
  REQUIRE_FALSE(spots.empty());
  for (const auto& spot : spots) CHECK_FALSE(spot["properties"]["cautions"].empty());
  const auto passes = json_in(folder + "/passes.geojson")["features"];
  REQUIRE_FALSE(passes.empty());
  for (const auto& pass : passes) {
    CHECK_FALSE(pass["properties"]["cautions"].empty());
    CHECK(pass["properties"]["open_water"] == false);
  }
}

TEST_CASE("open-water passes need clear layered water on the day, and never come at a caution or a stop set aside") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  const auto open = [&](const std::string& options) {
    const Run run = run_castplan(scratch, "scout " + kSample + " --quiet --out " + folder + " " + options);
    INFO(run.err);
    REQUIRE(run.code == 0);
    const auto passes = json_in(folder + "/passes.geojson")["features"];
    return std::count_if(passes.begin(), passes.end(),
                         [](const nlohmann::json& pass) { return pass["properties"]["open_water"] == true; });
  };
  CHECK(open("--secchi 5m --water-temp 66F --trend rising") > 0);
  const auto summary = json_in(folder + "/summary.json");
  const double thermocline = summary["conditions"]["thermocline_m"].get<double>();
  const auto passes = json_in(folder + "/passes.geojson")["features"];
  for (const auto& pass : passes) {
    const auto& p = pass["properties"];
    if (p["open_water"] == false) continue;
    CHECK(p["target_depth_m"][1].get<double>() < thermocline);
    CHECK(p["confidence"].get<double>() <= 0.3);
    CHECK(p["cautions"].dump().find("Low confidence") != std::string::npos);
  }
  CHECK(open("--secchi 4m --water-temp 66F --trend rising") == 0);  // clear is over 4 m
  CHECK(open("--secchi 5m") == 0);                                  // no day, no layers
  CHECK(open("--secchi 5m --water-temp 73F --trend rising") == 0);  // caution from 70 F
  CHECK(open("--secchi 5m --water-temp 76F --override-stop 'tagging study'") == 0);
  CHECK(json_in(folder + "/passes.geojson")["features"].size() > 0);
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
  CHECK(run.out.find("75 F") != std::string::npos);
  const auto spots = json_in(folder + "/spots.geojson")["features"];
  REQUIRE_FALSE(spots.empty());
  for (const auto& spot : spots) {
    const std::string cautions = spot["properties"]["cautions"].dump();
    CHECK(cautions.find("75 F") != std::string::npos);
    CHECK(cautions.find(why) != std::string::npos);
  }
  const auto passes = json_in(folder + "/passes.geojson")["features"];
  REQUIRE_FALSE(passes.empty());
  for (const auto& pass : passes) {
    const std::string cautions = pass["properties"]["cautions"].dump();
    CHECK(cautions.find("75 F") != std::string::npos);
    CHECK(cautions.find(why) != std::string::npos);
  }
  for (const auto& [name, bytes] : files_in(folder)) {
    INFO(name);
    CHECK(said_in(folder, name, bytes).find(why) != std::string::npos);
  }
  CHECK(json_in(folder + "/summary.json")["advisory"]["level"] == "stop");
  // a GPS shows a waypoint alone: stop and reason stand on each spot, and so does the warning of the straight line
  const std::string gps = read(folder + "/waypoints.gpx");
  CHECK(count_of(gps, "<desc>Stop: Muskellunge") == spots.size());
  CHECK(count_of(gps, "Set aside: " + why + ". ") == spots.size());
  CHECK(count_of(gps, "a straight line to this point may cross land or shoals") >= spots.size());
  for (auto at = gps.find("<desc>Stop"); at != std::string::npos; at = gps.find("<desc>Stop", at + 1)) {
    CHECK(gps.find("</desc>", at) - at - 6 <= 255);
  }
  for (const auto& [file, count] : spots_by_file(folder)) {
    INFO(file);
    if (file == "features.geojson" || file == "map.html" || file == "passes of the page") continue;
    CHECK(count == (file.find("passes") == 0 ? passes.size() : spots.size()));
  }
  const auto records = castplan::csv::parse(read(folder + "/spots.csv"));
  REQUIRE(records.size() == spots.size() + 1);
  for (std::size_t at = 1; at < records.size(); ++at) {
    const std::string cautions = castplan::csv::row(records, at)["cautions"];
    CHECK(cautions.find("75 F") != std::string::npos);
    CHECK(cautions.find(why) != std::string::npos);
  }
  // a device shows the mark, not the file's own text; its 255 letters have room for the stop, not for the reason too
  pugi::xml_document gpx;
  REQUIRE(gpx.load_file((folder + "/waypoints.gpx").c_str()));
  for (const pugi::xml_node mark : gpx.child("gpx").children("wpt")) {
    if (std::string(mark.child_value("type")) != "spot") continue;
    CHECK(std::string(mark.child_value("desc")).find("Stop: Muskellunge") != std::string::npos);
  }
}

TEST_CASE("a stop is not overridden without a reason") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  for (const char* reason : {"''", "'  '"}) {
    const Run run =
        run_castplan(scratch, "scout " + kSample + " --out " + folder + " --water-temp 76F --override-stop " + reason);
    INFO(run.err);
    CHECK(run.code == 2);
    CHECK(run.err.find("--override-stop") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(folder));
  }
}

TEST_CASE("a profile of one's own under the fish's name does not lift the stop of a lake that holds the fish") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  std::string own = run_castplan(scratch, "species muskellunge").out;
  // every 75 F becomes 85 F: stop and phase limits move together, so that the copy is a valid profile
  for (auto at = own.find("\"75 F\""); at != std::string::npos; at = own.find("\"75 F\"", at))
    own.replace(at, 6, "\"85 F\"");
  scratch.write("own.toml", own);
  const Run run = run_castplan(scratch, "scout " + kSample + " --quiet --water-temp 77F --species-file " +
                                            scratch.path("own.toml") + " --out " + folder);
  INFO(run.err);
  REQUIRE(run.code == 0);
  none_anywhere(folder, "75 F");
}
