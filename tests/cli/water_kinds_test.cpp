// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "cli/one_lake.hpp"
#include "cli/spots_in_files.hpp"

using namespace castplan;
using namespace castplan::one_lake;

namespace {

struct Water {
  Scratch scratch;
  Water() { ascii_grid(scratch, "d.asc", kRows, kCols, depth_m); }
  void scout(const std::string& head, const std::string& tables, const std::string& options) {
    scratch.write("lake.toml",
                  "name = \"Invented Water\"\n" + head + "[depth]\nraster = \"d.asc\"\nunit = \"m\"\n" + tables);
    const Run run = run_castplan(
        scratch, "scout " + scratch.path("lake.toml") + " --quiet --out " + scratch.path("plan") + " " + options);
    INFO(run.err);
    REQUIRE(run.code == 0);
  }
  json summary() { return json_in(scratch.path("plan/summary.json")); }
  json spots() { return json_in(scratch.path("plan/spots.geojson"))["features"]; }
  json features(const std::string& kind) { return features_of_kind(scratch.path("plan"), kind); }
};

const std::string kSummer = "--water-temp 20C --trend rising";

std::string two_marks(const json& deep, const json& shallow) {
  json layer = {{"type", "FeatureCollection"}, {"features", json::array()}};
  for (const json& at : {deep, shallow}) {
    layer["features"].push_back(
        {{"type", "Feature"}, {"properties", json::object()}, {"geometry", {{"type", "Point"}, {"coordinates", at}}}});
  }
  return layer.dump();
}

}  // namespace

TEST_CASE("a river has no thermocline and no weed edge from its clarity, and says that current is not modelled") {
  Water water;
  water.scout("water = \"river\"\n", "[conditions]\nsecchi = \"2 m\"\n", kSummer);
  const json conditions = water.summary()["conditions"];
  CHECK(conditions["thermocline_m"].is_null());
  CHECK(conditions["weed_depth_m"].is_null());
  CHECK(water.features("weed-line").empty());
  for (const auto& [name, bytes] : files_in(water.scratch.path("plan"))) {
    INFO(name);
    if (name == "spots.csv") continue;
    CHECK(said_in(water.scratch.path("plan"), name, bytes).find("current is not modelled") != std::string::npos);
  }
  CHECK_FALSE(water.features("pool").empty());
  // with no word of clarity too
  water.scout("water = \"river\"\n", "", kSummer);
  CHECK(water.summary()["cautions"].dump().find("current is not modelled") != std::string::npos);
  water.scout("", "[conditions]\nsecchi = \"2 m\"\n", kSummer);
  CHECK_FALSE(water.summary()["conditions"]["weed_depth_m"].is_null());
  CHECK(water.summary()["cautions"].dump().find("current is not modelled") == std::string::npos);
}

TEST_CASE("the weed edge of a reservoir stays at its elevation when the level falls") {
  Water water;
  const auto edge = [&](const std::string& kind, const std::string& offset) {
    water.scout("water = \"" + kind + "\"\n", "[level]\noffset = \"" + offset + "\"\n[conditions]\nsecchi = \"2 m\"\n",
                kSummer);
    return water.summary()["conditions"]["weed_depth_m"];
  };
  // Caffrey et al. (2007): log10 z = 0.66 log10 2 + 0.31, 3.226 m
  const double full = std::pow(10, 0.66 * std::log10(2.0) + 0.31);
  CHECK(edge("lake", "-1 m") == Approx(full).margin(0.006));
  CHECK(edge("reservoir", "0 m") == Approx(full).margin(0.006));
  CHECK(edge("reservoir", "-1 m") == Approx(full - 1).margin(0.006));
  CHECK(edge("reservoir", "0.5 m") == Approx(full + 0.5).margin(0.006));
  CHECK(edge("reservoir", "-3.5 m").is_null());
  CHECK(water.features("weed-line").empty());
  CHECK(water.summary()["notes"].dump().find("above today's surface") != std::string::npos);
}

TEST_CASE("ramps of a reservoir go dry with its level, however the level is given") {
  Water water;
  const auto dry = [&](const std::string& level) {
    water.scout("water = \"reservoir\"\n",
                level + "[[launch]]\nname = \"Ramp\"\nat = [-40.02, 45.5]\nusable_above = \"309 m\"\n", kSummer);
    return water.features("launch")[0]["properties"]["dry"].get<bool>();
  };
  CHECK_FALSE(dry("[level]\nsurvey = \"310 m\"\n"));
  CHECK_FALSE(dry("[level]\nsurvey = \"310 m\"\ntoday = \"309 m\"\n"));
  CHECK(dry("[level]\nsurvey = \"310 m\"\ntoday = \"308.9 m\"\n"));
  CHECK(dry("[level]\nsurvey = \"310 m\"\noffset = \"-1.1 m\"\n"));
  CHECK_FALSE(dry(""));  // nobody knows the level
}

TEST_CASE("standing wood of a reservoir is a hazard where it reaches up to the keel") {
  Water water;
  water.scout("water = \"reservoir\"\n", "", kSummer);
  // a place in deep water and a shallow one: the boats and targets of the plan itself
  json deep, shallow;
  double shallowest = 1e9;
  for (const auto& spot : water.spots()) {
    const double depth = spot["properties"]["target_depth_m"];
    if (depth < shallowest) shallow = spot["properties"]["target"];
    shallowest = std::min(shallowest, depth);
    if (deep.is_null() && spot["properties"]["boat_depth_m"] > 4.0) deep = spot["geometry"]["coordinates"];
  }
  REQUIRE_FALSE(deep.is_null());
  REQUIRE_FALSE(shallow.is_null());
  water.scratch.write("wood.geojson", two_marks(deep, shallow));
  const std::string wood = "[[structure]]\nfile = \"wood.geojson\"\nkind = \"wood\"\n";
  const auto stumps = [&](const std::string& kind, const std::string& level) {
    water.scout("water = \"" + kind + "\"\n", wood + level, kSummer);
    int count = 0;
    for (const auto& hazard : water.features("hazard")) count += hazard["properties"]["attribute"] == "stumps" ? 1 : 0;
    return count;
  };
  CHECK(stumps("lake", "") == 0);
  double least = 1e9;
  for (const auto& each : water.features("wood")) least = std::min(least, each["properties"]["depth_m"].get<double>());
  // one metre of stump (design) under the keel: 0.45 m of draft and 0.6 m of margin, and the error of the depths
  const double error = water.summary()["lake"]["depth_error_m"];
  const auto level_for = [&](double over) {
    return "[level]\noffset = \"" + std::to_string(0.45 + 0.6 + error + 1 + over - least) + " m\"\n";
  };
  CHECK(stumps("reservoir", level_for(0.4)) == 0);
  CHECK(stumps("reservoir", level_for(-0.4)) == 1);
  CHECK(water.features("wood").size() == 2);  // still what fish lie beside
}

TEST_CASE("stained and clear water change casts, depths and light, and say so") {
  Water water;
  const auto middle_depth = [&](const std::string& secchi, const std::string& options = "") {
    water.scout("", "", kSummer + " --secchi " + secchi + " " + options);
    double sum = 0;
    for (const auto& spot : water.spots()) sum += spot["properties"]["target_depth_m"].get<double>();
    REQUIRE_FALSE(water.spots().empty());
    return sum / static_cast<double>(water.spots().size());
  };
  const auto longest = [&] {
    double most = 0;
    for (const auto& spot : water.spots()) most = std::max(most, spot["properties"]["cast_m"].get<double>());
    return most;
  };
  const auto weighs_light = [&] {
    for (const auto& spot : water.spots()) {
      bool found = false;
      for (const auto& why : spot["properties"]["why"]) found = found || why["factor"] == "light";
      if (!found) return false;
    }
    return true;
  };
  const double stained = middle_depth("0.8m");
  CHECK(longest() <= 18.05);
  CHECK(weighs_light());
  CHECK(water.summary()["notes"].dump().find("Stained water") != std::string::npos);
  const double usual = middle_depth("2m");
  CHECK_FALSE(weighs_light());
  const double clear = middle_depth("6m");
  CHECK(weighs_light());
  CHECK(longest() > 18.05);
  CHECK(stained < usual);
  CHECK(usual < clear);
  middle_depth("6m", "--cast 12m-16m");  // one's own word holds
  CHECK(longest() <= 16.05);
}

TEST_CASE("a predicted weed edge is no target before it has grown") {
  Water water;
  const auto at_weeds = [&](const std::string& phase, const std::string& options) {
    water.scout("", "[conditions]\nsecchi = \"2 m\"\n", options + " --spots 30");
    CHECK_FALSE(water.features("weed-line").empty());  // drawn all the same
    int count = 0;
    for (const auto& spot : water.spots()) {
      if (spot["properties"]["phase"] != phase) continue;
      for (const auto& kind : spot["properties"]["kinds"]) count += kind == "weed-line" ? 1 : 0;
    }
    return count;
  };
  CHECK(at_weeds("early-summer", kSummer) > 0);
  CHECK(water.summary()["conditions"]["weed_stage"] == "standing");
  CHECK(at_weeds("cold", "--water-temp 3C --trend rising") == 0);
  CHECK(water.summary()["conditions"]["weed_stage"] == "not up yet");
  CHECK(water.summary()["notes"].dump().find("before it has grown") != std::string::npos);
  CHECK(at_weeds("late-autumn", "--water-temp 9C --trend falling") > 0);
  CHECK(water.summary()["conditions"]["weed_stage"] == "dying");
  // an edge that somebody saw is there
  water.scout("", "[conditions]\nweed_depth = \"3.2 m\"\n", "--water-temp 17C --trend rising --spots 30");
  int seen = 0;
  for (const auto& spot : water.spots()) {
    for (const auto& kind : spot["properties"]["kinds"]) seen += kind == "weed-line" ? 1 : 0;
  }
  CHECK(seen > 0);
}
