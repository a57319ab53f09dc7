// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "castplan/season/season.hpp"
#include "questions.hpp"

using namespace castplan;

namespace {

SeasonQuestion rising_at(double celsius) {
  SeasonQuestion question = north();
  question.water_temp = Celsius(celsius);
  question.trend = Trend::rising;
  return question;
}

}  // namespace

TEST_CASE("heat: caution from 70 F, stop from 75 F") {
  const auto level = [](double f) {
    SeasonQuestion question = rising_at(0);
    question.water_temp = fahrenheit(f);
    return ask(question).advisory.level;
  };
  CHECK(level(69.8) == AdvisoryLevel::none);     // 21 C: above it the last five days are asked for
  CHECK(level(69.9) == AdvisoryLevel::caution);  // and without them it is a caution
  CHECK(level(70) == AdvisoryLevel::caution);
  CHECK(level(74.9) == AdvisoryLevel::caution);
  CHECK(level(75) == AdvisoryLevel::stop);
  CHECK(level(80) == AdvisoryLevel::stop);
  CHECK(level(95) == AdvisoryLevel::stop);
}

TEST_CASE("heat stop: no spots, the reason, and when to look again") {
  const SeasonAnswer answer = ask(rising_at(24.5));
  CHECK(only_phase(answer) == "heat-stop");
  CHECK(answer.no_spots);
  CHECK_FALSE(answer.advisory.overridden);
  REQUIRE(answer.advisory.reasons.size() == 1);
  CHECK(mention(answer.advisory.reasons, "24.5 C (76.1 F)"));
  CHECK(mention(answer.advisory.reasons, "75 F (23.9 C)"));
  CHECK(mention(answer.advisory.reasons, "Look again: when"));
  // it needs no trend
  SeasonQuestion question = north();
  question.water_temp = Celsius(24.5);
  CHECK(only_phase(ask(question)) == "heat-stop");
}

TEST_CASE("caution says what to do and leaves the spots") {
  const SeasonAnswer answer = ask(rising_at(21.5));
  CHECK(answer.advisory.level == AdvisoryLevel::caution);
  CHECK_FALSE(answer.no_spots);
  CHECK(mention(answer.advisory.reasons, "21.5 C (70.7 F)"));
  CHECK(mention(answer.advisory.reasons, "21.1 C (70 F)"));
  CHECK(mention(answer.advisory.reasons, "the stop is 75 F (23.9 C)"));
}

TEST_CASE("spawn: 8 to 15.6 C rising is a stop, falling is not") {
  for (const double t : {8.0, 10.0, 15.56, 15.59}) {
    const SeasonAnswer answer = ask(rising_at(t));
    CHECK(only_phase(answer) == "spawn");
    CHECK(answer.advisory.level == AdvisoryLevel::stop);
    CHECK(answer.no_spots);
    CHECK(mention(answer.advisory.reasons, "8 to 15.6 C (46 to 60 F)"));
    CHECK(mention(answer.advisory.reasons, "Look again: when"));
  }
  CHECK_FALSE(ask(rising_at(7.99)).no_spots);
  CHECK_FALSE(ask(rising_at(15.6)).no_spots);
  SeasonQuestion autumn = rising_at(10);
  autumn.trend = Trend::falling;
  CHECK_FALSE(ask(autumn).no_spots);
}

TEST_CASE("a reading in a bay is never lowered for the heat stop") {
  SeasonQuestion question = rising_at(24.0);
  question.read_in_bay = true;
  CHECK(ask(question).no_spots);
  question.water_temp = Celsius(23.5);
  CHECK_FALSE(ask(question).no_spots);
}

TEST_CASE("a reading in a bay stops for the spawn when either value lies inside") {
  const auto stops = [](double t, bool bay) {
    SeasonQuestion question = rising_at(t);
    question.read_in_bay = bay;
    return ask(question).no_spots;
  };
  CHECK(stops(8.0, true));   // the main lake may be at 6.5, the bay is not
  CHECK(stops(17.0, true));  // 15.5 in the main lake
  CHECK(stops(17.09, true));
  CHECK_FALSE(stops(17.1, true));  // 15.6 in the main lake
  CHECK_FALSE(stops(17.0, false));
  CHECK_FALSE(stops(7.9, true));
  SeasonQuestion question = rising_at(17.0);
  question.read_in_bay = true;
  CHECK(mention(ask(question).advisory.reasons, "17 C (62.6 F) in a bay may be 15.5 C (59.9 F) in the main lake"));
  question.trend = Trend::falling;
  CHECK_FALSE(ask(question).no_spots);
}

TEST_CASE("a stop set aside keeps level and reasons, and says by which reason") {
  SeasonQuestion question = rising_at(24.5);
  question.override_stop = "survey with the fishery crew";
  const SeasonAnswer answer = ask(question);
  CHECK(answer.advisory.level == AdvisoryLevel::stop);
  CHECK(answer.advisory.overridden);
  CHECK_FALSE(answer.no_spots);
  CHECK(only_phase(answer) == "heat-stop");
  CHECK(mention(answer.advisory.reasons, "75 F (23.9 C)"));
  CHECK(mention(answer.advisory.reasons, "survey with the fishery crew"));
  // and there is something to rank
  CHECK_FALSE(answer.phases[0]->weights.empty());
  CHECK_FALSE(answer.phases[0]->lures.empty());

  SeasonQuestion idle = rising_at(17);
  idle.override_stop = "no need";
  CHECK_FALSE(ask(idle).advisory.overridden);
  CHECK(mention(ask(idle).notes, "nothing to set aside"));
}

TEST_CASE("outside the user's open dates is a stop, with the next opening") {
  SeasonQuestion question = rising_at(17);
  question.open = {{"05-25", "06-30"}, {"08-15", "11-30"}};
  question.date = parse_date("2026-07-10");
  const SeasonAnswer closed = ask(question);
  CHECK(closed.advisory.level == AdvisoryLevel::stop);
  CHECK(closed.no_spots);
  CHECK(only_phase(closed) == "post-spawn");
  CHECK(
      mention(closed.advisory.reasons, "2026-07-10 lies outside your own open dates (05-25 to 06-30, 08-15 to 11-30)"));
  CHECK(mention(closed.advisory.reasons, "from 2026-08-15"));
  for (const char* day : {"2026-05-25", "2026-06-30", "2026-08-15"}) {
    question.date = parse_date(day);
    CHECK_FALSE(ask(question).no_spots);
  }
  question.date = parse_date("2026-12-01");
  CHECK(mention(ask(question).advisory.reasons, "from 2027-05-25"));
  // without a temperature, too
  question.water_temp.reset();
  CHECK(ask(question).no_spots);
  CHECK(ask(question).phases.size() == 9);
}

TEST_CASE("open dates without a date are a note only, but must be dates") {
  SeasonQuestion question = rising_at(17);
  question.open = {{"05-25", "11-30"}};
  CHECK_FALSE(ask(question).no_spots);
  CHECK(mention(ask(question).notes, "Open dates are given but no date is"));
  question.open = {{"25 May", "11-30"}};
  CHECK_THROWS_AS(ask(question), InputError);
}

TEST_CASE("a held species at its stop stops the whole lake") {
  SeasonQuestion question = north();
  question.holds = {&species("smallmouth-bass"), &species("muskellunge")};
  question.water_temp = Celsius(25.0);  // fine for bass
  question.trend = Trend::rising;
  const SeasonAnswer hot = ask(question, "smallmouth-bass");
  CHECK(only_phase(hot) == "summer");
  CHECK(hot.advisory.level == AdvisoryLevel::stop);
  CHECK(hot.no_spots);
  REQUIRE(hot.advisory.reasons.size() == 1);
  CHECK(mention(hot.advisory.reasons, "The lake also holds muskellunge"));

  question.water_temp = Celsius(11);  // pre-spawn of the bass, spawn of the muskellunge
  const SeasonAnswer spawn = ask(question, "smallmouth-bass");
  CHECK(only_phase(spawn) == "pre-spawn");
  CHECK(spawn.no_spots);

  question.water_temp = Celsius(22);  // caution of the muskellunge
  const SeasonAnswer warm = ask(question, "smallmouth-bass");
  CHECK(warm.advisory.level == AdvisoryLevel::caution);
  CHECK_FALSE(warm.no_spots);

  // whose phase hangs on a trend although that of the target does not
  question.trend.reset();
  question.water_temp = Celsius(8.5);
  CHECK_THROWS_WITH(ask(question, "smallmouth-bass"), Catch::Contains("Muskellunge") && Catch::Contains("--trend"));
}

TEST_CASE("the target itself among the held species counts once") {
  SeasonQuestion question = rising_at(24.5);
  question.holds = {&species("muskellunge"), &species("muskellunge")};
  CHECK(ask(question).advisory.reasons.size() == 1);
}

TEST_CASE("several stops all keep their reasons") {
  SeasonQuestion question = rising_at(26);
  question.holds = {&species("northern-pike")};
  question.open = {{"09-01", "11-30"}};
  question.date = parse_date("2026-07-10");
  CHECK(ask(question).advisory.reasons.size() == 3);
}

TEST_CASE("advisory levels by name") {
  CHECK(name_of(AdvisoryLevel::none) == "none");
  CHECK(name_of(AdvisoryLevel::caution) == "caution");
  CHECK(name_of(AdvisoryLevel::stop) == "stop");
}
