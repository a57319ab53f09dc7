// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <cmath>
#include <set>

#include "cli/evening.hpp"

using namespace castplan;
using namespace castplan::printed;

TEST_CASE("what is to be checked is what the plan leans on and does not know") {
  const Evening evening(kSummer);
  const auto records = evening.checks();
  std::map<std::string, nlohmann::json> by_id;
  std::set<std::string> used;
  for (const auto& feature : evening.features("features.geojson")) by_id[feature["id"]] = feature;
  std::map<std::string, std::string> rank_of;
  for (const auto& spot : evening.features("spots.geojson")) {
    by_id[spot["id"]] = spot;
    rank_of[spot["id"]] = std::to_string(spot["properties"]["rank"].get<int>());
    for (const auto& id : spot["properties"]["feature_ids"]) used.insert(id.get<std::string>());
  }
  std::map<std::string, int> count;
  std::set<std::string> sounded;
  for (std::size_t i = 1; i < records.size(); ++i) {
    auto row = csv::row(records, i);
    INFO(row["what"] << " " << row["id"]);
    CHECK(row["number"] == std::to_string(i));
    // to half of a thousandth of a minute, 0.9 m
    std::smatch dm;
    REQUIRE(
        std::regex_match(row["degrees_minutes"], dm,
                         std::regex("(\\d\\d)\xC2\xB0 (\\d\\d\\.\\d{3})' N, (\\d{3})\xC2\xB0 (\\d\\d\\.\\d{3})' W")));
    CHECK(std::abs(std::stod(dm[1]) * 60 + std::stod(dm[2]) - std::stod(row["lat"]) * 60) < 0.000501);
    CHECK(std::abs(std::stod(dm[3]) * 60 + std::stod(dm[4]) + std::stod(row["lon"]) * 60) < 0.000501);
    for (const char* column : {"look_at", "how", "would_change", "place"}) CHECK_FALSE(row[column].empty());
    for (const char* part : {"Not for navigation", "life jacket"}) CHECK(says(row["cautions"], part));
    ++count[row["what"]];
    const auto properties = row["id"].empty() ? nlohmann::json() : by_id.at(row["id"])["properties"];
    if (row["what"] == "depth at a spot") sounded.insert(rank_of.at(row["id"]));
    if (row["what"] == "predicted weed edge") CHECK(properties["source"] == "predicted");
    if (row["what"] == "doubtful feature") {
      CHECK(properties["confidence"].get<double>() < 0.7);
      CHECK(used.count(row["id"]) == 1);
    }
    if (row["what"] == "thinly surveyed shoal") CHECK(properties["kind"] == "hazard");
    // the South ramp has a level in the lake file, the East landing has none
    if (row["what"] == "launch") CHECK(row["place"] == "East landing");
  }
  CHECK(count["launch"] == 1);
  CHECK(count["predicted weed edge"] >= 1);
  CHECK(count["thinly surveyed shoal"] >= 1);
  CHECK(count["water temperature"] == 0);
  // the spots that the summary says to sound first
  const std::string notes = json_in(evening.path("summary.json"))["phase_notes"].dump();
  std::smatch first;
  if (std::regex_search(notes, first, std::regex("Sound the depth at spots? ([0-9, and]+) first"))) {
    const std::string list = first[1];
    std::set<std::string> said;
    const std::regex number("[0-9]+");
    for (std::sregex_iterator at(list.begin(), list.end(), number), end; at != end; ++at) said.insert(at->str());
    CHECK(sounded == said);
  } else {
    CHECK(sounded.empty());
  }
  // the page has the first rows, in their order
  const std::string page = evening.text("to-check.pdf");
  CHECK(says(page, "PRIVATE: EXACT PLACES"));
  for (std::size_t i = 1; i < std::min<std::size_t>(6, records.size()); ++i) {
    CHECK(says(page, csv::row(records, i)["degrees_minutes"]));
  }
}

TEST_CASE("before the season the first thing to check is the temperature, and spots go by phase letter and rank") {
  const Evening evening("--date 2026-05-01");
  const auto records = evening.checks();
  CHECK(csv::row(records, 1)["what"] == "water temperature");
  int spots = 0;
  for (std::size_t i = 1; i < records.size(); ++i) {
    auto row = csv::row(records, i);
    if (row["what"] != "depth at a spot") continue;
    CHECK(std::regex_match(row["spots"], std::regex("[A-I][0-9]+(, [A-I][0-9]+)*")));
    ++spots;
  }
  CHECK(spots >= 1);
  CHECK(spots <= 6);
}
