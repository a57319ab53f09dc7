// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "support/csv.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "castplan/write/text.hpp"
#include "support/plans.hpp"

using namespace castplan;

TEST_CASE("spots.csv follows RFC 4180: one header, CRLF, rows of equal length") {
  const std::string text = spots_csv(sample::plan());
  const csv::Records records = csv::parse(text);  // throws at anything outside the grammar
  REQUIRE(records.size() == 4);
  for (const auto& record : records) CHECK(record.size() == records[0].size());
  const std::vector<std::string> first(records[0].begin(), records[0].begin() + 5);
  CHECK(first == std::vector<std::string>{"phase", "rank", "rank_low", "rank_high", "id"});
  CHECK(text == spots_csv(sample::plan()));
}

TEST_CASE("spots.csv says the same as spots.geojson") {
  const Plan plan = sample::plan();
  const csv::Records records = csv::parse(spots_csv(plan));
  const auto spots = nlohmann::json::parse(spots_geojson(plan))["features"];
  REQUIRE(spots.size() + 1 == records.size());
  for (std::size_t at = 0; at < spots.size(); ++at) {
    auto row = csv::row(records, at + 1);
    const auto& p = spots[at]["properties"];
    CHECK(row["id"] == p["id"]);
    CHECK(row["phase"] == p["phase"]);
    CHECK(std::stoi(row["rank"]) == p["rank"]);
    CHECK(std::stod(row["lon"]) == spots[at]["geometry"]["coordinates"][0]);
    CHECK(std::stod(row["lat"]) == spots[at]["geometry"]["coordinates"][1]);
    CHECK(std::stod(row["target_lon"]) == p["target"][0]);
    CHECK(std::stod(row["target_lat"]) == p["target"][1]);
    for (const char* name :
         {"boat_depth_m", "approach_deg", "bearing_deg", "cast_m", "target_depth_m", "score", "minutes", "casts"}) {
      CHECK(std::stod(row[name]) == p[name]);
    }
    CHECK(std::stod(row["strike_from_m"]) == p["strike_m"][0]);
    CHECK(std::stod(row["strike_to_m"]) == p["strike_m"][1]);
  }
}

TEST_CASE("each row carries the cautions, the surface, the source and the temperatures") {
  Plan plan = sample::plan();
  const csv::Records records = csv::parse(spots_csv(plan));
  for (std::size_t at = 1; at < records.size(); ++at) {
    auto row = csv::row(records, at);
    for (const std::string& caution : plan.cautions) CHECK(row["cautions"].find(caution) != std::string::npos);
    CHECK(row["cautions"].find("A shoal lies 40 m to the west.") != std::string::npos);
    CHECK(row["cautions"].find("Single barbless hooks") != std::string::npos);
    CHECK(row["surface"] == plan.surface_text);
    CHECK(row["depth_source"] == "Invented county survey, CC BY 4.0, surveyed 1994");
    CHECK(row["temperatures"].find(row["phase"]) != std::string::npos);
    CHECK(row["program"] == "castplan " + std::string(version()));
  }
  CHECK(csv::row(records, 3)["temperatures"].find("15.6") != std::string::npos);
}

// A spreadsheet runs a cell that begins with = + - @ or a tab (OWASP, "CSV Injection"); formats.md section 4.
TEST_CASE("a text that looks like a formula gets an apostrophe, a number does not") {
  for (const std::string bad : {"=cmd|' /C calc'!A0", "+1", "-2+3", "@SUM(A1)", "\t=1+1", "\r\n=1+1", "  =1+1"}) {
    Plan plan = sample::plan();
    plan.phases[0].spots[0].reason_words = bad;
    plan.lake_name = bad;
    auto row = csv::row(csv::parse(spots_csv(plan)), 1);
    CAPTURE(bad);
    CHECK(row["reasons"].front() == '\'');
    CHECK(row["lake"].front() == '\'');
    CHECK(row["lon"].front() == '-');
  }
}

TEST_CASE("quotes, commas and line ends survive") {
  Plan plan = sample::plan();
  plan.phases[0].spots[0].reason_words = "the \"big\" one, by\r\nthe wall";
  CHECK(csv::row(csv::parse(spots_csv(plan)), 1)["reasons"] == "the \"big\" one, by the wall");
}
