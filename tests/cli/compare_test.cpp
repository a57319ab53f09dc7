// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// A comparison against two plans that were made each for itself, matched here a second time from their printed places.
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "castplan/geo/geodesic.hpp"
#include "cli/spots_in_files.hpp"

using namespace castplan;
using namespace castplan::programs;
using nlohmann::json;

namespace {

double apart(const json& a, const json& b) {
  return geodesic({{a[0].get<double>()}, {a[1].get<double>()}}, {{b[0].get<double>()}, {b[1].get<double>()}})
      .distance.value();
}

json spots_of(const Scratch& scratch, const std::string& name, const std::string& how) {
  const Run made =
      run_castplan(scratch, "scout " + kSample + " " + how + " --quiet --spots 20 --out " + scratch.path(name));
  INFO(how << "\n" << made.err);
  REQUIRE(made.code == 0);
  return json_in(scratch.path(name + "/spots.geojson"))["features"];
}

std::map<std::string, json> by_id(const json& spots) {
  std::map<std::string, json> out;
  for (const json& spot : spots) out[spot["properties"]["id"].get<std::string>()] = spot;
  return out;
}

/// One spot of the comparison as it stands in the plan that was made for that side alone.
void check_standing(const json& standing, const std::map<std::string, json>& own) {
  const auto found = own.find(standing["id"].get<std::string>());
  REQUIRE(found != own.end());
  const json& spot = found->second;
  for (const char* name : {"rank", "rank_low", "rank_high", "score"}) {
    INFO(name);
    CHECK(standing[name] == spot["properties"][name]);
  }
  CHECK(standing["boat"] == spot["geometry"]["coordinates"]);
}

void check_against_plans(const json& compare, const json& alone_a, const json& alone_b) {
  const auto a = by_id(alone_a), b = by_id(alone_b);
  std::set<std::string> seen_a, seen_b;
  REQUIRE(compare["phases"].size() == 1);
  for (const json& change : compare["phases"][0]["spots"]) {
    const std::string fate = change["fate"];
    if (!change["a"].is_null()) {
      check_standing(change["a"], a);
      CHECK(seen_a.insert(change["a"]["id"].get<std::string>()).second);
    }
    if (!change["b"].is_null()) {
      check_standing(change["b"], b);
      CHECK(seen_b.insert(change["b"]["id"].get<std::string>()).second);
    }
    CHECK((fate == "comes") == change["a"].is_null());
    CHECK((fate == "leaves") == change["b"].is_null());
    if (fate == "leaves") {
      // no boat of the other plan within the distance that is still free
      for (const auto& [id, spot] : b) {
        const bool near = apart(change["a"]["boat"], spot["geometry"]["coordinates"]) < 29;
        CHECK_FALSE((near && !std::any_of(compare["phases"][0]["spots"].begin(), compare["phases"][0]["spots"].end(),
                                          [&](const json& other) {
                                            return !other["a"].is_null() && !other["b"].is_null() &&
                                                   other["b"]["id"] == id;
                                          })));
      }
    }
    if (change["a"].is_null() || change["b"].is_null()) continue;
    const int before = change["a"]["rank"], after = change["b"]["rank"];
    CHECK(fate == (before == after ? "stays" : after < before ? "rises" : "falls"));
    // one cast from the one boat and one from the other at most, where the boats themselves lie apart
    CHECK(apart(change["a"]["boat"], change["b"]["boat"]) < 30 + 2 * 25);
  }
  CHECK(seen_a.size() == a.size());
  CHECK(seen_b.size() == b.size());
}

}  // namespace

TEST_CASE("two temperatures: the plan of the first, and what becomes of its spots at the second") {
  const Scratch scratch;
  const json a = spots_of(scratch, "a", "--water-temp 66F --trend rising");
  const json b = spots_of(scratch, "b", "--water-temp 44F --trend rising");
  const json both = spots_of(scratch, "both", "--compare 66F 44F --trend rising");
  const json summary = json_in(scratch.path("both/summary.json"));
  REQUIRE(a.size() > 5);
  REQUIRE(b.size() > 5);
  CHECK(both == a);
  check_against_plans(summary["compare"], a, b);
  CHECK(summary["conditions"] == json_in(scratch.path("a/summary.json"))["conditions"]);
  CHECK(summary["compare"]["kind"] == "temperature");
  CHECK(summary["compare"]["b"]["phases"] == json_in(scratch.path("b/summary.json"))["conditions"]["phases"]);
  CHECK(summary["provenance"]["options"]["compare"] == "66F 44F");
  // what a GPS, a table and a person get is the plan of the first alone, to the byte
  for (const char* name : {"spots.csv", "log.csv", "waypoints.gpx"}) {
    INFO(name);
    CHECK(read(scratch.path(std::string("both/") + name)) == read(scratch.path(std::string("a/") + name)));
  }
  // spawning ground that only the cold side asks for is not on the map of the warm one
  CHECK(json_in(scratch.path("both/features.geojson"))["features"] ==
        json_in(scratch.path("a/features.geojson"))["features"]);
  CHECK(json_in(scratch.path("both/passes.geojson"))["features"] ==
        json_in(scratch.path("a/passes.geojson"))["features"]);
  CHECK(read(scratch.path("both/map.html")).find("Compared: From 66F to 44F") != std::string::npos);
}

TEST_CASE("the other way round, a comparison is the mirror of itself") {
  const Scratch scratch;
  const auto fates = [&](const std::string& pair) {
    static_cast<void>(spots_of(scratch, "plan", "--compare " + pair + " --trend rising"));
    std::multiset<std::string> out;
    const json summary = json_in(scratch.path("plan/summary.json"));
    for (const json& change : summary["compare"]["phases"][0]["spots"]) {
      const auto id = [&](const char* side) {
        return change[side].is_null() ? std::string("none") : change[side]["id"].get<std::string>();
      };
      out.insert(pair.starts_with("66F") ? id("a") + " " + id("b") : id("b") + " " + id("a"));
    }
    return out;
  };
  CHECK(fates("66F 44F") == fates("44F 66F"));
}

TEST_CASE("two dates: each with its own closures and sky") {
  const Scratch scratch;
  // one temperature for both: rising in June, falling in October
  const json a = spots_of(scratch, "a", "--date 2026-06-20 --water-temp 19C");
  const json b = spots_of(scratch, "b", "--date 2026-10-10 --water-temp 19C");
  const json both = spots_of(scratch, "both", "--compare 2026-06-20 2026-10-10 --water-temp 19C");
  CHECK(both == a);
  const json summary = json_in(scratch.path("both/summary.json"));
  check_against_plans(summary["compare"], a, b);
  CHECK(summary["compare"]["kind"] == "date");
  CHECK(summary["compare"]["a"]["date"] == "2026-06-20");
  CHECK(summary["compare"]["b"]["date"] == "2026-10-10");
  CHECK(summary["conditions"]["date"] == "2026-06-20");
  CHECK(json_in(scratch.path("both/features.geojson"))["features"] ==
        json_in(scratch.path("a/features.geojson"))["features"]);
}

TEST_CASE("the report says what becomes of each spot, and --json carries it") {
  const Scratch scratch;
  const std::string how =
      "scout " + kSample + " --compare 66F 72F --trend rising --formats json --out " + scratch.path("plan");
  const Run report = run_castplan(scratch, how);
  REQUIRE(report.code == 0);
  CHECK(report.out.find("What if: 66F (this plan, and its files) against 72F") != std::string::npos);
  const Run object = run_castplan(scratch, how + " --json");
  REQUIRE(object.code == 0);
  const json printed = json::parse(object.out);
  CHECK(printed["compare"] == json_in(scratch.path("plan/summary.json"))["compare"]);
  std::map<std::string, std::size_t> count;
  for (const json& change : printed["compare"]["phases"][0]["spots"]) {
    ++count[change["fate"].get<std::string>()];
    const json& side = change["a"].is_null() ? change["b"] : change["a"];
    CHECK(report.out.find(side["id"].get<std::string>() + ": rank") != std::string::npos);
  }
  std::string counts;
  for (const auto& [fate, words] :
       {std::pair("stays", " stay at their rank, "), std::pair("rises", " rise, "), std::pair("falls", " fall, "),
        std::pair("leaves", " leave, "), std::pair("comes", " come.")}) {
    counts += std::to_string(count[fate]) + words;
  }
  CHECK(printed["compare"]["words"][0].get<std::string>().find(counts) != std::string::npos);
}

TEST_CASE("a stop on either side leaves nothing to compare and is said") {
  const Scratch scratch;
  const auto compare = [&](const std::string& how) {
    const Run made = run_castplan(scratch, "scout " + kSample + " " + how + " --out " + scratch.path("plan"));
    INFO(made.err);
    REQUIRE(made.code == 0);
    return made;
  };
  SECTION("the other side: the plan stands, none of its spots is carried over") {
    const Run made = compare("--compare 66F 78F --trend rising");
    const json summary = json_in(scratch.path("plan/summary.json"));
    CHECK(summary["counts"]["spot"].get<int>() > 5);
    CHECK(summary["compare"]["b"]["advisory"]["level"] == "stop");
    CHECK(summary["compare"]["phases"].empty());
    CHECK(made.out.find("78F is a stop: no spots then") != std::string::npos);
  }
  SECTION("the plan itself: no spot in any file, that of the other side neither") {
    const Run made = compare("--compare 78F 66F --trend rising");
    none_anywhere(scratch.path("plan"), "stressed");
    CHECK(json_in(scratch.path("plan/summary.json"))["compare"]["phases"].empty());
    CHECK(read(scratch.path("plan/summary.json")).find("spot-") == std::string::npos);
    CHECK(made.out.find("spot-") == std::string::npos);
    CHECK(made.out.find("78F is a stop: no spots then") != std::string::npos);
  }
  SECTION("set aside, the stop stands beside what is compared") {
    const Run made = compare("--compare 66F 78F --trend rising --override-stop 'tank study'");
    const json compared = json_in(scratch.path("plan/summary.json"))["compare"];
    CHECK(compared["b"]["advisory"]["overridden"] == true);
    CHECK_FALSE(compared["phases"].empty());
    CHECK(made.out.find("The stop at 78F was set aside") != std::string::npos);
  }
}

TEST_CASE("before the season the phases of one name are compared") {
  const Scratch scratch;
  const Run made = run_castplan(
      scratch, "scout " + kSample + " --compare 2026-04-10 2026-08-10 --quiet --out " + scratch.path("plan"));
  REQUIRE(made.code == 0);
  const json compare = json_in(scratch.path("plan/summary.json"))["compare"];
  CHECK(compare["phases"].size() > 3);
  for (const json& phase : compare["phases"]) CHECK(phase["a"] == phase["b"]);
  CHECK(compare["words"].dump().find("A date alone decides no phase") != std::string::npos);
}

TEST_CASE("a pair that cannot be compared ends with 2 and what would do") {
  const Scratch scratch;
  const auto fails = [&](const std::string& how, const std::string& said) {
    const Run run = run_castplan(scratch, "scout " + kSample + " " + how + " --out " + scratch.path("plan"));
    INFO(how << "\n" << run.err);
    CHECK(run.code == 2);
    CHECK(run.err.find(said) != std::string::npos);
    CHECK(run.err.find("--compare") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(scratch.path("plan")));
  };
  fails("--compare 2026-06-20 66F", "two of one kind");
  fails("--compare 66F 2026-06-20", "two of one kind");
  fails("--compare 66F", "2");
  fails("--compare 66 70F", "58F, 14.5C");
  fails("--compare june july", "2026-06-20");
  fails("--compare 2026-02-30 2026-06-20", "2026-02-30");
  fails("--compare 66F '66 F'", "the same");
  fails("--compare 2026-06-20 2026-06-20", "the same");
  fails("--compare 66F 70F --water-temp 60F", "leave --water-temp away");
  fails("--compare 2026-06-20 2026-07-20 --date 2026-05-20", "leave --date away");
  fails("--compare '' 66F", "without a value");
  // the other side alone cannot be decided: 15 C rises in June and falls in October, and there is no date
  fails("--compare 24C 15C", "15C");
}
