// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/season.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "questions.hpp"

using namespace castplan;

TEST_CASE("with no temperature all phases of the year are planned") {
  const SeasonAnswer answer = ask(north());
  CHECK(answer.phases.size() == 9);
  CHECK(answer.phases[0]->name == "cold");
  CHECK_FALSE(answer.water_temp);
  CHECK(answer.water_temp_source.empty());
  CHECK_FALSE(answer.trend);
  CHECK(answer.advisory.level == AdvisoryLevel::none);
  CHECK_FALSE(answer.no_spots);
  // the lines that still hold
  CHECK(mention(answer.advisory.reasons, "75 F (23.9 C)"));
  CHECK(mention(answer.advisory.reasons, "21.1 C (70 F)"));
  CHECK(mention(answer.advisory.reasons, "8 to 15.6 C (46 to 60 F)"));
}

TEST_CASE("a date alone never decides a phase") {
  SeasonQuestion question = north();
  for (const char* date : {"2026-01-10", "2026-05-10", "2026-07-20", "2026-10-30"}) {
    question.date = parse_date(date);
    CHECK(ask(question).phases.size() == 9);
  }
}

TEST_CASE("a phase by name is planned alone when no temperature is known") {
  SeasonQuestion question = north();
  question.phase = "late-autumn";
  const SeasonAnswer answer = ask(question);
  CHECK(only_phase(answer) == "late-autumn");
  CHECK(answer.valid_for == "falling water of 4 to 12 C (39 to 54 F)");
  CHECK(answer.advisory.level == AdvisoryLevel::none);
  CHECK(mention(answer.advisory.reasons, "75 F"));

  question.phase = "late-autum";
  CHECK_THROWS_AS(ask(question), UsageError);
  CHECK_THROWS_WITH(ask(question), Catch::Contains("did you mean late-autumn?") && Catch::Contains("post-spawn"));
}

TEST_CASE("a closed phase by name is a stop") {
  SeasonQuestion question = north();
  for (const char* phase : {"spawn", "heat-stop"}) {
    question.phase = phase;
    const SeasonAnswer answer = ask(question);
    CHECK(only_phase(answer) == phase);
    CHECK(answer.advisory.level == AdvisoryLevel::stop);
    CHECK(answer.no_spots);
    CHECK(mention(answer.advisory.reasons, "Look again"));
  }
}

TEST_CASE("a known temperature beats a phase by name") {
  SeasonQuestion question = north();
  question.phase = "late-autumn";
  question.water_temp = Celsius(17);
  question.trend = Trend::rising;
  const SeasonAnswer answer = ask(question);
  CHECK(only_phase(answer) == "post-spawn");
  CHECK(mention(answer.notes, "--phase late-autumn is not used"));
  question.phase = "post-spawn";
  CHECK(ask(question).notes.empty());
  question.phase = "postspawn";  // still checked
  CHECK_THROWS_AS(ask(question), UsageError);
}

TEST_CASE("a temperature and a trend give exactly one phase") {
  SeasonQuestion question = north();
  question.water_temp = fahrenheit(62);
  question.trend = Trend::rising;
  const SeasonAnswer answer = ask(question);
  CHECK(only_phase(answer) == "post-spawn");
  CHECK(answer.water_temp == fahrenheit(62));
  CHECK(answer.water_temp_source == "given");
  CHECK(answer.trend == Trend::rising);
  CHECK(answer.valid_for == "rising water of 15.6 to 18 C (60 to 64 F)");
  CHECK(answer.advisory.level == AdvisoryLevel::none);
  question.trend = Trend::falling;
  CHECK(only_phase(ask(question)) == "early-autumn");
}

TEST_CASE("a temperature of two phases needs a trend, and the error says what would do") {
  SeasonQuestion question = north();
  question.water_temp = Celsius(12);
  CHECK_THROWS_AS(ask(question), UsageError);
  CHECK_THROWS_WITH(ask(question), Catch::Contains("12 C (53.6 F)") && Catch::Contains("spawn when it rises") &&
                                       Catch::Contains("early-autumn when it falls") &&
                                       Catch::Contains("--trend rising or --trend falling") &&
                                       Catch::Contains("--date"));
  // 3 C is cold and 23 C summer whichever way it goes
  question.water_temp = Celsius(3);
  CHECK(only_phase(ask(question)) == "cold");
  CHECK(ask(question).valid_for == "rising water below 5 C (41 F) or falling water below 4 C (39 F)");
  question.water_temp = Celsius(23);
  CHECK(only_phase(ask(question)) == "summer");
  CHECK(ask(question).valid_for == "water of 22 to 23.9 C (72 to 75 F), rising or falling");
  CHECK_FALSE(ask(question).trend);
}

TEST_CASE("the date gives the trend, by hemisphere") {
  const auto phase_on = [](SeasonQuestion question, const char* date) {
    question.date = parse_date(date);
    question.water_temp = Celsius(12);
    return only_phase(ask(question));
  };
  for (const char* date : {"2026-02-01", "2026-05-10", "2026-07-31"}) {
    CHECK(phase_on(north(), date) == "spawn");
    CHECK(phase_on(south(), date) == "early-autumn");
  }
  for (const char* date : {"2026-08-01", "2026-10-10", "2026-12-31", "2027-01-31"}) {
    CHECK(phase_on(north(), date) == "early-autumn");
    CHECK(phase_on(south(), date) == "spawn");
  }
}

TEST_CASE("between the tropics the trend must be given") {
  SeasonQuestion question;
  question.latitude = Latitude{23.43};
  question.water_temp = Celsius(17);
  question.date = parse_date("2026-10-10");
  CHECK_THROWS_AS(ask(question), UsageError);
  CHECK_THROWS_WITH(ask(question), Catch::Contains("between the tropics"));
  question.trend = Trend::falling;
  CHECK(only_phase(ask(question)) == "early-autumn");
  question.date = parse_date("2026-05-10");  // no half-year counts here, so no cold snap either
  CHECK(only_phase(ask(question)) == "early-autumn");
  question.latitude = Latitude{23.45};
  CHECK(only_phase(ask(question)) == "post-spawn");
}

TEST_CASE("a fall outside the autumn half-year is a cold snap") {
  SeasonQuestion question = north();
  question.water_temp = Celsius(17);
  question.trend = Trend::falling;
  question.date = parse_date("2026-06-10");
  const SeasonAnswer answer = ask(question);
  CHECK(only_phase(answer) == "post-spawn");
  CHECK(answer.trend == Trend::rising);
  CHECK(mention(answer.notes, "cold snap"));
  CHECK(mention(answer.notes, "1 August to 31 January"));

  SeasonQuestion other = south();
  other.water_temp = Celsius(17);
  other.trend = Trend::falling;
  other.date = parse_date("2026-11-10");
  CHECK(only_phase(ask(other)) == "post-spawn");
  CHECK(mention(ask(other).notes, "1 February to 31 July"));
  other.date = parse_date("2026-04-10");
  CHECK(only_phase(ask(other)) == "early-autumn");
  CHECK(ask(other).notes.empty());
  // with no date nobody can tell, and the word of the user stands
  question.date.reset();
  CHECK(only_phase(ask(question)) == "early-autumn");
}

TEST_CASE("a temperature that no lake has is refused with both scales") {
  SeasonQuestion question = north();
  for (const double bad : {75.0, -5.0, std::nan("")}) {
    question.water_temp = Celsius(bad);
    CHECK_THROWS_AS(ask(question), UsageError);
  }
  question.water_temp = Celsius(75);
  CHECK_THROWS_WITH(ask(question), Catch::Contains("75 C (167 F)") && Catch::Contains("unit"));
}

TEST_CASE("phase ranges for people") {
  const Profile& profile = species("muskellunge");
  CHECK(phase_range_text(*phase_named(profile, "spawn")) == "rising 8 to 15.6 C (46 to 60 F)");
  CHECK(phase_range_text(*phase_named(profile, "cold")) == "rising below 5 C (41 F), falling below 4 C (39 F)");
  CHECK(phase_range_text(*phase_named(profile, "heat-stop")) == "rising or falling 23.9 C (75 F) and above");
  CHECK(phase_range_text(*phase_named(profile, "early-autumn")) == "falling 12 to 22 C (54 to 72 F)");
}
