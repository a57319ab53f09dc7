// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Odds from catch rates: figures of tests/truth/season.csv, and the printed fish and hours of the surveys.
#include "castplan/season/odds.hpp"

#include <algorithm>

#include "season/truth.hpp"

using namespace castplan;

namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

const CatchSurvey& survey(double fish) {
  const auto& all = species("muskellunge").catch_surveys;
  const auto found = std::find_if(all.begin(), all.end(), [&](const CatchSurvey& each) { return each.fish == fish; });
  REQUIRE(found != all.end());
  return *found;
}

double rate(double fish) { return fish / survey(fish).hours; }

}  // namespace

TEST_CASE("the chance of a fish follows the Poisson process") {
  near_row("ST-P1", chance_of_fish(0.03, 8));
  near_row("ST-T50", hours_for_even_chance(0.03));
  CHECK(chance_of_fish(0.03, 0) == 0);
  CHECK(chance_of_fish(0, 8) == 0);
  CHECK(chance_of_fish(0.03, hours_for_even_chance(0.03)) == Approx(0.5));
}

TEST_CASE("the profile keeps fish and hours as they were printed") {
  near_row("ST-CPUE-7994", rate(3054));
  near_row("ST-CPUE-08", rate(1183));
  near_row("ST-CPUE-10", rate(946));
  near_row("ST-CPUE-11", rate(1235));
  near_row("ST-HPF", 1 / rate(276));
  // 1,745 fish in 56,508 h; the abstract's own 0.027 an hour does not follow from them
  CHECK(rate(1745) == Approx(0.0309).margin(0.0001));
  CHECK(survey(276).counted == "fish of 34 in (86 cm) and more");
  for (const CatchSurvey& each : species("muskellunge").catch_surveys) CHECK(each.source.mark == "published");
}

TEST_CASE("odds of muskellunge by the largest survey, with the range of all") {
  // by hand: 1 - exp(-6 * 1745 / 56508) = 0.1691, which is 1 in 5.9; of the extremes 0.0351 and 0.3247
  const auto odds = odds_of(species("muskellunge"), 6);
  REQUIRE(odds);
  CHECK(odds->words == "6 hours: about 1 in 6");
  CHECK(odds->rate == Approx(1745 / 56508.0));
  CHECK(odds->rate_low == Approx(276 / 46390.0));
  CHECK(odds->rate_high == Approx(3054 / 46668.0));
  const std::string text = odds_text(species("muskellunge"), 6);
  INFO(text);
  CHECK(has(text, "6 hours: about 1 in 6"));
  CHECK(has(text, "1 in 30 (counting fish of 34 in (86 cm) and more only) to 1 in 3"));
  CHECK(has(text, "about 20 hours of casting"));  // ln 2 / 0.0309 = 22.4
  CHECK(has(text, "angler-hour"));
  CHECK(has(text, "keen"));
  CHECK(has(text, "not of this lake"));
  CHECK(has(text, "1745 fish in 56508 hours"));
  CHECK(has(text, "ISBN 9781934874462"));
  CHECK(has(odds_line(species("muskellunge"), 6), "6 hours: about 1 in 6"));
  // more hours, better odds: 1 - exp(-12 * 0.0309) = 0.31
  CHECK(odds_of(species("muskellunge"), 12)->words == "12 hours: about 1 in 3");
}

TEST_CASE("where no catch rate is published none is made up") {
  for (const std::string_view name : species_names()) {
    const Profile& profile = species(name);
    INFO(name);
    if (!profile.catch_surveys.empty()) continue;
    CHECK_FALSE(odds_of(profile));
    CHECK(has(odds_text(profile), "No published catch rate is known"));
    CHECK_FALSE(has(odds_text(profile), " in 10"));
  }
  CHECK_FALSE(odds_of(species("walleye")));
}

TEST_CASE("a chance in words is a plain fraction near it") {
  CHECK(chance_words(1.0 / 6) == "1 in 6");
  CHECK(chance_words(0.5) == "1 in 2");
  CHECK(chance_words(0.68) == "2 in 3");
  CHECK(chance_words(0.99) == "more than 9 in 10");
  CHECK(chance_words(0.001) == "less than 1 in 100");
  // never off by more than a quarter, over all that is given as a fraction
  for (double chance = 1.0 / 119; chance <= 0.95; chance *= 1.01) {
    const std::string words = chance_words(chance);
    int of = 0, all = 0;
    REQUIRE(std::sscanf(words.c_str(), "%d in %d", &of, &all) == 2);
    CHECK(std::abs(std::log(chance * all / of)) < std::log(1.25));
  }
}
