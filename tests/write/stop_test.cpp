// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>
#include <string>

#include "castplan/write/text.hpp"
#include "support/csv.hpp"
#include "support/pdf.hpp"
#include "support/plans.hpp"

using namespace castplan;
using nlohmann::json;

namespace {

sample::Options stopped(bool overridden) {
  sample::Options options;
  options.one_phase = true;
  options.stop = true;
  options.overridden = overridden;
  return options;
}

constexpr const char* kReason = "water at 24.5 C is at or above the stop of 75 F";

}  // namespace

TEST_CASE("a stop leaves features and no spot in any file, with the reason") {
  Plan plan = sample::plan(stopped(false));
  // even when someone left spots in the plan
  plan.phases = sample::plan().phases;
  const json spots = json::parse(spots_geojson(plan));
  CHECK(spots["features"].empty());
  CHECK_FALSE(spots.contains("bbox"));
  CHECK(spots["metadata"]["advisory"]["level"] == "stop");
  CHECK(spots["metadata"]["counts"]["spot"] == 0);
  CHECK(spots["metadata"]["counts"]["pass"] == 0);
  const json passes = json::parse(passes_geojson(plan));
  CHECK(passes["features"].empty());
  CHECK(passes["metadata"]["advisory"]["level"] == "stop");
  CHECK(map_html(plan).find("pass-45.") == std::string::npos);
  CHECK(json::parse(features_geojson(plan))["features"].size() == kinds().size());
  CHECK(csv::parse(spots_csv(plan)).size() == 1);

  const auto files = waypoint_files(plan);
  REQUIRE(files.size() == 1);
  CHECK(files[0].name == "waypoints.gpx");
  pugi::xml_document gpx;
  REQUIRE(gpx.load_string(files[0].bytes.c_str()));
  int launches = 0;
  for (const pugi::xml_node wpt : gpx.child("gpx").children("wpt")) {
    CHECK(std::string(wpt.child_value("type")) != "spot");
    launches += std::string(wpt.child_value("type")) == "launch";
  }
  CHECK(launches == 1);
  CHECK(std::string(gpx.child("gpx").child("metadata").child_value("desc")).find(kReason) != std::string::npos);
}

TEST_CASE("a stop that was set aside stands on every spot and in every file, with the reason given") {
  const Plan plan = sample::plan(stopped(true));
  const programs::Scratch scratch;
  const json spots = json::parse(spots_geojson(plan));
  REQUIRE(spots["features"].size() == 2);
  for (const json& spot : spots["features"]) {
    const std::string cautions = spot["properties"]["cautions"].dump();
    CHECK(cautions.find(kReason) != std::string::npos);
    CHECK(cautions.find("tagging survey") != std::string::npos);
  }
  const json passes = json::parse(passes_geojson(plan));
  REQUIRE(passes["features"].size() == 1);
  for (const char* said : {kReason, "tagging survey"}) {
    CHECK(passes["features"][0]["properties"]["cautions"].dump().find(said) != std::string::npos);
  }
  for (const Format& format : formats()) {
    for (const OutputFile& file : format.write(plan)) {
      CAPTURE(file.name);
      const std::string text = pdf::readable(scratch, file.name, file.bytes);
      CHECK(text.find(kReason) != std::string::npos);
      CHECK(text.find("tagging survey") != std::string::npos);
    }
  }
  for (std::size_t at = 1; at < 3; ++at) {
    auto row = csv::row(csv::parse(spots_csv(plan)), at);
    CHECK(row["cautions"].find("tagging survey") != std::string::npos);
  }
  pugi::xml_document gpx;
  REQUIRE(gpx.load_string(waypoint_files(plan)[0].bytes.c_str()));
  for (const pugi::xml_node wpt : gpx.child("gpx").children("wpt")) {
    if (std::string(wpt.child_value("type")) != "spot") continue;
    CHECK(std::string(wpt.child_value("desc")).find("Stop: ") != std::string::npos);
  }
}

TEST_CASE("every format carries cautions, surface, source and temperatures") {
  sample::Options options;
  options.one_phase = true;
  const Plan plan = sample::plan(options);
  const programs::Scratch scratch;
  for (const Format& format : formats()) {
    for (const OutputFile& file : format.write(plan)) {
      CAPTURE(file.name);
      const std::string text = pdf::readable(scratch, file.name, file.bytes);
      CHECK(text.find("Not for navigation") != std::string::npos);
      CHECK(text.find("life jacket") != std::string::npos);
      CHECK(text.find("312.4 m") != std::string::npos);
      CHECK(text.find("Invented county survey") != std::string::npos);
      CHECK(text.find("CC BY 4.0") != std::string::npos);
      CHECK(text.find("4 to 8 C (39 to 46 F)") != std::string::npos);
      CHECK(text.find(std::string(version())) != std::string::npos);
      if (!file.name.ends_with(".gpkg") && !file.name.ends_with(".png")) CHECK(file.bytes.back() == '\n');
      const std::string twice = [&] {
        for (const OutputFile& again : format.write(plan)) {
          if (again.name == file.name) return again.bytes;
        }
        return std::string();
      }();
      CHECK((file.bytes == twice));
    }
  }
}
