// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <numbers>
#include <set>

#include "castplan/write/text.hpp"
#include "support/plans.hpp"

using namespace castplan;
using nlohmann::json;

// The names are those of contract.md, "summary.json".
TEST_CASE("the summary has the contract's members") {
  const json summary = json::parse(summary_json(sample::plan()));
  const json& lake = summary["lake"];
  CHECK(lake["name"] == "Kestrel Mere");
  // a paraboloid bowl, radius 300 m, 6 m deep: area pi R^2, volume pi R^2 h / 2
  CHECK(lake["area_m2"].get<double>() == Approx(std::numbers::pi * 9e4).margin(0.051));
  CHECK(lake["volume_m3"].get<double>() == Approx(std::numbers::pi * 9e4 * 3.0).margin(0.051));
  CHECK(lake["max_depth_m"] == 6.0);
  CHECK(lake["mean_depth_m"] == 3.0);
  CHECK(lake["shoreline_m"].get<double>() == Approx(std::numbers::pi * 600.0).margin(0.0051));
  CHECK(lake["shoreline_development"] == 1.0);
  const json& conditions = summary["conditions"];
  CHECK(conditions["date"].is_null());
  CHECK(conditions["species"] == "mere-pike");
  CHECK(conditions["phases"] == json::array({"pre-spawn", "early-summer"}));
  CHECK(conditions["water_temp_c"].is_null());
  CHECK(conditions["water_temp_source"].is_null());
  CHECK(conditions["secchi_m"] == 2.8);
  CHECK(conditions["weed_depth_m"] == 4.03);
  CHECK(conditions["weed_depth_range_m"] == json::array({3.42, 6.72}));
  for (const char* name : {"thermocline_m", "thermocline_range_m", "thermocline_source", "sun", "moon", "wind"}) {
    INFO(name);
    CHECK(conditions[name].is_null());
  }
  CHECK(summary["advisory"]["level"] == "none");
  CHECK(summary["advisory"]["reasons"].empty());
  for (const KindRow& row : kinds()) CHECK(summary["counts"][std::string(row.name)] == 1);
  CHECK(summary["counts"]["spot"] == 3);
  CHECK(summary["counts"]["pass"] == 1);
  const json& provenance = summary["provenance"];
  CHECK(provenance["version"] == std::string(version()));
  CHECK(provenance["inputs"][0] == json{{"name", "kestrel_mere.tif"}, {"sha256", std::string(64, 'a')}});
  CHECK(provenance["options"] == json{{"secchi", "2.8 m"}, {"spots", "10"}});
  CHECK(provenance["profile"] == "mere-pike");
  CHECK(summary["schema"] == 1);
  CHECK(summary["not_assessed"] == json::array({"oxygen"}));
}

TEST_CASE("a planned phase has its temperature and the plan's validity") {
  sample::Options options;
  options.one_phase = true;
  const json summary = json::parse(summary_json(sample::plan(options)));
  CHECK(summary["conditions"]["date"] == "2026-05-02");
  CHECK(summary["conditions"]["water_temp_c"] == 6.5);
  CHECK(summary["conditions"]["water_temp_source"] == "given");
  CHECK(summary["temperatures"] == "4 to 8 C (39 to 46 F), rising");
}

TEST_CASE("an input that came with a folder is named without it") {
  Plan plan = sample::plan();
  plan.inputs[0].name = "some/folder/depths.tif";
  const std::string text = summary_json(plan);
  CHECK(text.find("some/folder") == std::string::npos);
  CHECK(text.find("\"depths.tif\"") != std::string::npos);
}

TEST_CASE("what is not known is null, never a number") {
  Plan plan = sample::plan();
  plan.secchi.reset();
  plan.weed_depth.reset();
  plan.weed_source.clear();
  plan.source.clear();
  const json summary = json::parse(summary_json(plan));
  for (const char* name : {"secchi_m", "weed_depth_m", "weed_depth_range_m", "weed_depth_source"}) {
    CHECK(summary["conditions"][name].is_null());
  }
  CHECK(summary["source"].is_null());
}

TEST_CASE("the standing cautions name the dangers and the fish's stop, as the profile writes it") {
  std::string all;
  for (const std::string& caution : standing_cautions(sample::profile())) all += caution + "\n";
  // 15 C, 59 F: cold water, common practice of water safety teaching, from memory; 75 F = 23.9 C by the definition
  for (const char* word : {"Not for navigation", "life jacket", "15 C", "59 F", "minutes", "wind", "lightning", "net",
                           "75 F (23.9 C)", "both hands", "Local rules", "closures", "licensed"}) {
    CAPTURE(word);
    CHECK(all.find(word) != std::string::npos);
  }
}

TEST_CASE("the table of formats names each format and each file once") {
  std::set<std::string> names, files;
  const Plan plan = sample::plan();
  for (const Format& format : formats()) {
    CHECK(names.insert(std::string(format.name)).second);
    CHECK_FALSE(format.what.empty());
    for (const OutputFile& file : format.write(plan)) CHECK(files.insert(file.name).second);
  }
  CHECK(names == std::set<std::string>{"csv", "fragment", "geojson", "gpkg", "gpx", "html", "json", "kml", "log", "pdf",
                                       "png", "svg", "teaching"});
  CHECK(files == std::set<std::string>{"features.geojson",
                                       "spots.geojson",
                                       "passes.geojson",
                                       "spots.csv",
                                       "summary.json",
                                       "map.html",
                                       "log.csv",
                                       "sheet.pdf",
                                       "waypoints-pre-spawn.gpx",
                                       "waypoints-early-summer.gpx",
                                       "places.kml",
                                       "castplan.gpkg",
                                       "map.png",
                                       "map.svg",
                                       "fragment.html",
                                       "contours.pdf",
                                       "contours-key.pdf",
                                       "glossary.pdf",
                                       "to-check.pdf",
                                       "to-check.csv",
                                       "contours.geojson"});
}

TEST_CASE("warnings: the advisory, the notes and what was not assessed, each with a code") {
  sample::Options options;
  options.one_phase = options.stop = true;
  const json warnings = json::parse(summary_json(sample::plan(options)))["warnings"];
  CHECK(warnings == json::array({{{"code", "stop"}, {"text", "water at 24.5 C is at or above the stop of 75 F"}},
                                 {{"code", "note"}, {"text", "The depth error is not stated; 0.3 m is assumed."}},
                                 {{"code", "not-assessed"},
                                  {"text", "oxygen: nothing was given, which does not mean that there is none"}}}));
  options.stop = false;
  CHECK(json::parse(summary_json(sample::plan(options)))["warnings"].size() == 2);
}

TEST_CASE("the summary has the layers and the sky of the day") {
  Plan plan = sample::plan();
  plan.layers.thermocline = ThermoclineDepth{Metres(6.25), Metres(5), Metres(7.5)};
  plan.layers.source = "profile";
  plan.layers.mixing = Mixing::layered;
  plan.sun_text = "sunrise 05:00";
  plan.moon_text = "full moon";
  plan.wind_text = "5 m/s";
  const json conditions = json::parse(summary_json(plan))["conditions"];
  CHECK(conditions["thermocline_m"] == 6.25);
  CHECK(conditions["thermocline_range_m"] == json::array({5.0, 7.5}));
  CHECK(conditions["thermocline_source"] == "profile");
  CHECK(conditions["mixing"] == "layered");
  CHECK(conditions["sun"] == "sunrise 05:00");
  CHECK(conditions["moon"] == "full moon");
  CHECK(conditions["wind"] == "5 m/s");
}
