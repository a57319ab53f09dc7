// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "castplan/write/folder.hpp"
#include "castplan/write/text.hpp"
#include "support/csv.hpp"
#include "support/plans.hpp"
#include "support/programs.hpp"

using namespace castplan;

namespace {

// The log with one cell of its first row filled in.
std::string filled_log(const Plan& plan) {
  std::string log = log_csv(plan);
  const auto row = log.find("\r\n") + 2;
  const auto blank = log.find(",,", row);
  log.insert(blank + 1, "2026-05-02");
  return log;
}

std::vector<OutputFile> files_of(const Plan& plan) {
  return {{"log.csv", log_csv(plan)}, {"spots.csv", spots_csv(plan)}, {"summary.json", summary_json(plan)}};
}

}  // namespace

TEST_CASE("the log has a row a spot, keyed by its id, and blank cells for effort, water, fish and release") {
  const Plan plan = sample::plan();
  const auto records = csv::parse(log_csv(plan));
  const auto spots = nlohmann::json::parse(spots_geojson(plan))["features"];
  REQUIRE(records.size() == spots.size() + 1);
  for (std::size_t at = 1; at < records.size(); ++at) {
    auto row = csv::row(records, at);
    const auto& spot = spots[at - 1]["properties"];
    CHECK(row["id"] == spot["id"]);
    CHECK(row["phase"] == spot["phase"]);
    CHECK(row["rank"] == std::to_string(spot["rank"].get<int>()));
    for (const char* name :
         {"date", "start", "minutes_fished", "casts", "water_temp", "clarity", "seen", "follows", "hooked", "landed",
          "length", "hooked_where", "net_s", "air_s", "condition", "tag", "notes"}) {
      INFO(name);
      REQUIRE(row.count(name) == 1);
      CHECK(row[name].empty());
    }
  }
}

TEST_CASE("a blank log is replaced with its plan; one that is filled in stays to the byte") {
  const programs::Scratch scratch;
  const std::string folder = scratch.path("plan");
  const Plan plan = sample::plan();
  sample::Options stopped;
  stopped.one_phase = stopped.stop = true;
  const Plan stop = sample::plan(stopped);
  write_folder(folder, files_of(plan));
  CHECK_FALSE(has_filled_log(folder));
  write_folder(folder, files_of(stop));
  CHECK(csv::parse(programs::read(folder + "/log.csv")).size() == 1);
  write_folder(folder, files_of(plan));
  // a plan that writes no log takes a blank one with it
  write_folder(folder, {{"summary.json", summary_json(stop)}});
  CHECK_FALSE(std::filesystem::exists(folder + "/log.csv"));

  for (const std::string& notes :
       {filled_log(plan), std::string("caught one"), std::string(), "id\r\n" + log_csv(plan)}) {
    scratch.write("plan/log.csv", notes);
    CHECK(has_filled_log(folder));
    write_folder(folder, files_of(plan));
    CHECK(programs::read(folder + "/log.csv") == notes);
    CHECK(programs::read(folder + "/spots.csv") == spots_csv(plan));
    write_folder(folder, {{"summary.json", summary_json(stop)}});
    CHECK(programs::read(folder + "/log.csv") == notes);
  }
}
