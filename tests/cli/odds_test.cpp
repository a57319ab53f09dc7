// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Odds where people read them. The figures: 1 - exp(-6 x 1745 / 56508) = 0.169, about 1 in 6 (tests/season/odds_test).
#include <catch2/catch.hpp>
#include <regex>

#include "cli/spots_in_files.hpp"

using namespace castplan::programs;

namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// Words as they stand, whatever lines they are broken into.
std::string unbroken(const std::string& text) { return std::regex_replace(text, std::regex("\\s+"), " "); }

struct Told {
  std::string report, page, sheet;
  nlohmann::json odds;
};

Told scouted(const Scratch& scratch, const std::string& how) {
  const Run run = run_castplan(scratch, "scout " + kSample + " --out " + scratch.path("plan") + " " + how);
  INFO(how << "\n" << run.err);
  REQUIRE(run.code == 0);
  return {unbroken(run.out), read(scratch.path("plan/map.html")),
          unbroken(castplan::pdf::text_of(scratch.path("plan/sheet.pdf"))),
          json_in(scratch.path("plan/summary.json"))["odds"]};
}

}  // namespace

TEST_CASE("odds stand on report, page and sheet with their range, their effort and their source") {
  const Scratch scratch;
  const Told told = scouted(scratch, "--water-temp 66F --trend rising");
  for (const std::string* text : {&told.report, &told.page, &told.sheet}) {
    CHECK(has(*text, "6 hours: about 1 in 6"));
    CHECK(has(*text, "1 in 30"));
    CHECK(has(*text, "56508 hours"));
    CHECK(has(*text, "keen"));
    CHECK((has(*text, "a four-year study of anglers' diaries") ||
           has(*text, "a four-year study of anglers&#39; diaries")));
  }
  CHECK(has(told.report, "angler-hour"));
  CHECK(told.odds["words"] == "6 hours: about 1 in 6");
  CHECK(told.odds["angler_hours"] == 6);
  CHECK(told.odds["fish_per_angler_hour"] == 0.031);
  CHECK(told.odds["fish_per_angler_hour_range"] == nlohmann::json::array({0.006, 0.065}));
}

TEST_CASE("a species without a published catch rate gets no odds, and that is said") {
  const Scratch scratch;
  const Told told = scouted(scratch, "--species walleye --water-temp 66F --trend rising");
  for (const std::string* text : {&told.report, &told.page}) {
    CHECK(has(*text, "No published catch rate is known for walleye"));
    CHECK_FALSE(has(*text, "hours: about 1 in"));
  }
  CHECK(has(told.odds["text"], "No published catch rate"));
  CHECK_FALSE(told.odds.contains("fish_per_angler_hour"));
}

TEST_CASE("at a stop nobody is told of odds") {
  const Scratch scratch;
  for (const char* how : {"--water-temp 77F", "--water-temp 77F --override-stop study"}) {
    const Told told = scouted(scratch, how);
    INFO(how);
    CHECK(told.odds.is_null());
    for (const std::string* text : {&told.report, &told.page, &told.sheet}) CHECK_FALSE(has(*text, "1 in 6"));
  }
}
