// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "castplan/season/season.hpp"
#include "questions.hpp"

using namespace castplan;

namespace {

SeasonQuestion on(const std::string& date, const std::vector<double>& celsius) {
  SeasonQuestion question = north();
  question.date = parse_date(date);
  question.series = days_up_to(date, celsius);
  return question;
}

}  // namespace

TEST_CASE("a series and a date give temperature and trend") {
  const SeasonAnswer answer = ask(on("2026-10-10", {20, 20, 19, 19, 18, 18, 17, 17, 16, 16}));
  CHECK(only_phase(answer) == "early-autumn");
  CHECK(answer.water_temp == Celsius(16));
  CHECK(answer.water_temp_source == "series");
  CHECK(answer.trend == Trend::falling);
  CHECK(answer.notes.empty());
}

TEST_CASE("the trend of the series is the mean of 5 days against the 5 days before") {
  // the newest day is colder than the one before, and still the water rises
  const SeasonAnswer answer = ask(on("2026-06-01", {15.7, 15.7, 15.8, 16, 16, 17, 17.5, 17.5, 17.5, 17}));
  CHECK(answer.trend == Trend::rising);
  CHECK(only_phase(answer) == "post-spawn");
  CHECK_FALSE(mention(answer.notes, "cold snap"));
  // means 15.6 and then 16.8, although the last 5 days fall and the 5 days up to yesterday had 17.2
  CHECK(ask(on("2026-09-20", {15, 15, 15, 15, 18, 17, 17, 17, 17, 16})).trend == Trend::rising);
}

TEST_CASE("a given temperature beats the newest reading, the series still tells the trend") {
  SeasonQuestion question = on("2026-10-10", {20, 20, 19, 19, 18, 18, 17, 17, 16, 16});
  question.water_temp = Celsius(11);
  const SeasonAnswer answer = ask(question);
  CHECK(only_phase(answer) == "late-autumn");
  CHECK(answer.water_temp == Celsius(11));
  CHECK(answer.water_temp_source == "given");
}

TEST_CASE("the series beats the trend that was given, with a note") {
  SeasonQuestion question = on("2026-10-10", {20, 20, 19, 19, 18, 18, 17, 17, 16, 16});
  question.trend = Trend::rising;
  const SeasonAnswer answer = ask(question);
  CHECK(only_phase(answer) == "early-autumn");
  CHECK(mention(answer.notes, "The series shows falling water"));
}

TEST_CASE("a series too short for a trend leaves it to the user, then to the date") {
  SeasonQuestion question = on("2026-10-10", {16});
  CHECK(only_phase(ask(question)) == "early-autumn");
  question.latitude = Latitude{10};
  CHECK_THROWS_AS(ask(question), UsageError);
  question.trend = Trend::rising;
  CHECK(only_phase(ask(question)) == "post-spawn");
}

TEST_CASE("readings after the date do not count") {
  SeasonQuestion question = on("2026-06-10", {16, 16, 16, 16, 16, 17, 17, 17, 17, 17, 20, 25});
  question.date = parse_date("2026-06-08");
  const SeasonAnswer answer = ask(question);
  CHECK(answer.water_temp == Celsius(17));
  CHECK(only_phase(answer) == "post-spawn");
  question.date = parse_date("2026-05-01");  // before the series begins
  CHECK(ask(question).phases.size() == 9);
  CHECK(mention(ask(question).notes, "no reading up to 2026-05-01"));
}

TEST_CASE("the newest reading may be 5 days old, not 6") {
  SeasonQuestion question = on("2026-06-10", {19, 19, 19, 19, 19, 20, 20, 20, 20, 20});
  question.date = parse_date("2026-06-15");
  CHECK(only_phase(ask(question)) == "early-summer");
  CHECK_FALSE(ask(question).no_spots);
  question.date = parse_date("2026-06-16");
  CHECK(ask(question).phases.size() == 9);
  CHECK(mention(ask(question).notes, "of 2026-06-10, is more than 5 days older than 2026-06-16"));
  question.date.reset();
  CHECK(ask(question).phases.size() == 9);
  CHECK(mention(ask(question).notes, "needs a date"));
}

TEST_CASE("unknown readings are left out, impossible ones refused") {
  SeasonQuestion question = on("2026-06-10", {16, 16, 16, 16, 16, 17, 17, 17, 17, std::nan("")});
  CHECK(ask(question).water_temp == Celsius(17));
  question.series[3].temperature = Celsius(62);  // Fahrenheit in a Celsius column
  CHECK_THROWS_AS(ask(question), InputError);
  CHECK_THROWS_WITH(ask(question),
                    Catch::Contains("2026-06-04") && Catch::Contains("62 C") && Catch::Contains("Celsius"));
  question.series[3] = {"June 4", Celsius(16)};
  CHECK_THROWS_AS(ask(question), InputError);
}

TEST_CASE("several readings a day count as their mean, for heat the warmest") {
  SeasonQuestion question = on("2026-07-20", {22, 22, 22, 22, 22, 22, 22, 22, 22});
  question.series.push_back({"2026-07-20", Celsius(22.6)});
  CHECK(ask(question).water_temp->value() == Approx(22.3));
  question.series.back().temperature = Celsius(24.0);  // an afternoon
  CHECK(ask(question).no_spots);
  CHECK(only_phase(ask(question)) == "heat-stop");
}

TEST_CASE("heat stop takes the warmer of today's reading and the 5-day mean") {
  // today 23.5, mean of 5 days 24.1
  const SeasonAnswer cooled = ask(on("2026-07-20", {23, 23, 23, 23, 23, 24, 24.5, 24.5, 24, 23.5}));
  CHECK(only_phase(cooled) == "heat-stop");
  CHECK(cooled.no_spots);
  CHECK(mention(cooled.advisory.reasons, "the mean of the last 5 days is 24.1 C (75.4 F)"));
  // today 24, mean 23
  CHECK(ask(on("2026-07-20", {22, 22, 22, 22, 22, 22.5, 22.5, 23, 23, 24})).no_spots);
  // a given reading does not hide the mean
  SeasonQuestion question = on("2026-07-20", {23, 23, 23, 23, 23, 24, 24.5, 24.5, 24, 24});
  question.water_temp = Celsius(22);
  CHECK(ask(question).no_spots);
}

TEST_CASE("the spawn, once entered, holds through a cold snap") {
  const SeasonAnswer answer = ask(on("2026-05-15", {6, 7, 8, 9, 10, 11, 10, 8, 7, 6, 6}));
  CHECK(only_phase(answer) == "spawn");
  CHECK(answer.no_spots);
  CHECK(answer.water_temp == Celsius(6));
  CHECK(mention(answer.advisory.reasons, "has begun and holds until the mean of 5 days has passed 15.6 C"));
  // the same 6 C before it began is pre-spawn
  CHECK(only_phase(ask(on("2026-05-15", {4, 4, 5, 5, 5, 5, 5, 6, 6, 6, 6}))) == "pre-spawn");
}

TEST_CASE("the spawn holds until the 5-day mean has passed its upper end") {
  // newest day 17, mean of 5 days 15.4
  const SeasonAnswer held = ask(on("2026-05-25", {10, 11, 12, 13, 13, 14, 15, 15, 16, 17}));
  CHECK(only_phase(held) == "spawn");
  CHECK(mention(held.advisory.reasons, "it is 15.4 C (59.7 F) now"));
  // a day later the mean is 16.2
  CHECK(only_phase(ask(on("2026-05-26", {10, 11, 12, 13, 13, 14, 15, 15, 16, 17, 17.9}))) == "post-spawn");
  // a given temperature does not end it
  SeasonQuestion question = on("2026-05-25", {10, 11, 12, 13, 13, 14, 15, 15, 16, 17});
  question.water_temp = Celsius(17.5);
  CHECK(only_phase(ask(question)) == "spawn");
}

TEST_CASE("the memory of the spawn begins with the year and ends with autumn") {
  // December 2025 fell through 8 to 15.6 C: that was autumn, and another year
  std::vector<double> winter = {14, 13, 12, 11, 10, 9, 9, 8.5, 8.2, 8.1};  // to 31 December
  for (int i = 0; i < 40; ++i) winter.push_back(4.5);
  CHECK(only_phase(ask(on("2026-02-09", winter))) == "cold");
  // The spring of the year before, then nothing until now.
  SeasonQuestion question = on("2026-02-09", {4.5, 4.5, 4.5});
  const auto spring = days_up_to("2025-05-10", {9, 10, 11, 12, 12, 13});
  question.series.insert(question.series.begin(), spring.begin(), spring.end());
  CHECK(only_phase(ask(question)) == "cold");
  // A lake that stays below 15.6 C all summer: August is autumn when it falls.
  std::vector<double> cool(60, 13.0);
  for (int i = 0; i < 10; ++i) cool.push_back(12.9 - 0.05 * i);
  CHECK(only_phase(ask(on("2026-08-20", cool))) == "early-autumn");
  CHECK(only_phase(ask(on("2026-07-20", cool))) == "spawn");
}

TEST_CASE("south of the equator the spawn is remembered over the new year") {
  SeasonQuestion question = south();
  question.date = parse_date("2027-01-05");
  question.series = days_up_to("2027-01-05", {9, 10, 11, 12, 12, 11, 10, 8, 7, 7, 7, 7});  // from 25 December
  CHECK(only_phase(ask(question)) == "spawn");
}

TEST_CASE("after the spawn a cold snap that falls back into its interval stops again") {
  std::vector<double> series = {12, 13, 14, 15, 16, 16, 17, 17, 17, 17};
  CHECK(only_phase(ask(on("2026-06-01", series))) == "post-spawn");
  series.insert(series.end(), {16, 15});
  CHECK(only_phase(ask(on("2026-06-03", series))) == "spawn");
}

TEST_CASE("a falling series in spring is a cold snap") {
  const SeasonAnswer answer = ask(on("2026-06-20", {20, 20, 20, 20, 20, 19, 19, 19, 19, 19}));
  CHECK(only_phase(answer) == "early-summer");
  CHECK(mention(answer.notes, "cold snap"));
}

TEST_CASE("a rising series in autumn is taken at its word, with a note") {
  const SeasonAnswer answer = ask(on("2026-09-20", {17, 17, 17, 17, 17, 17.5, 17.5, 17.5, 17.5, 17.5}));
  CHECK(only_phase(answer) == "post-spawn");
  CHECK(mention(answer.notes, "warm spell"));
}

TEST_CASE("held species remember their spawn by the same series") {
  SeasonQuestion question = on("2026-05-15", {6, 7, 8, 9, 10, 11, 10, 8, 7, 6, 6});
  question.holds = {&species("muskellunge")};
  const SeasonAnswer answer = ask(question, "smallmouth-bass");
  CHECK(only_phase(answer) == "cold");
  CHECK(answer.no_spots);
  CHECK(mention(answer.advisory.reasons, "The lake also holds muskellunge"));
}
