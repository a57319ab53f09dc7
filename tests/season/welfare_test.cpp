// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "castplan/season/season.hpp"
#include "questions.hpp"

// The lines, 21.1 C, 75 F, 15.6 C, 17 C, 2 C and 36 hours, are the project's own decisions, written down before this
// program was; 75 F and the spawn at 50 to 60 F are rules of the trade (common practice, no source). That the strain of
// five days counts: Booth et al. (2023), Trans. Am. Fish. Soc., doi 10.1002/tafs.10418.

using namespace castplan;

namespace {

SeasonQuestion rising_at(double celsius, std::optional<double> age = std::nullopt) {
  SeasonQuestion question = north();
  question.water_temp = Celsius(celsius);
  question.trend = Trend::rising;
  question.reading_age = age;
  return question;
}

SeasonQuestion with_series(const std::string& last, const std::vector<double>& celsius, const std::string& date) {
  SeasonQuestion question = north();
  question.date = parse_date(date);
  question.series = days_up_to(last, celsius);
  return question;
}

AdvisoryLevel level_of(const SeasonQuestion& question, const char* species = "muskellunge") {
  return ask(question, species).advisory.level;
}

}  // namespace

TEST_CASE("a reading within 2 C of a stop that is older than 36 hours is a stop") {
  // 75 F is 23.889 C: from 21.889 C an old reading counts as there
  CHECK(level_of(rising_at(22.0, 36)) == AdvisoryLevel::caution);
  CHECK(level_of(rising_at(22.0, 36.1)) == AdvisoryLevel::stop);
  CHECK(level_of(rising_at(21.89, 48)) == AdvisoryLevel::stop);
  CHECK(level_of(rising_at(21.88, 48)) == AdvisoryLevel::caution);
  CHECK(level_of(rising_at(22.0)) == AdvisoryLevel::caution);  // read for the plan
  // the spawn, on both sides: water that was past it may have fallen back
  CHECK(level_of(rising_at(6.0, 48)) == AdvisoryLevel::stop);
  CHECK(level_of(rising_at(5.9, 48)) == AdvisoryLevel::none);
  CHECK(level_of(rising_at(17.6, 48)) == AdvisoryLevel::stop);
  CHECK(level_of(rising_at(17.7, 48)) == AdvisoryLevel::none);
  CHECK(level_of(rising_at(17.6, 30)) == AdvisoryLevel::none);
  // in autumn the same water is no spawn
  SeasonQuestion autumn = rising_at(14, 48);
  autumn.trend = Trend::falling;
  CHECK(level_of(autumn) == AdvisoryLevel::none);
  const SeasonAnswer answer = ask(rising_at(22.0, 53));
  CHECK(answer.no_spots);
  CHECK(only_phase(answer) == "summer");  // the phase stays that of the temperature
  CHECK(mention(answer.advisory.reasons, "22 C (71.6 F) is 53 hours away"));
  CHECK(mention(answer.advisory.reasons, "Look again: with a reading of the last 36 hours"));
}

TEST_CASE("the newest day of a series and the top of a profile grow old as well") {
  const std::vector<double> warm(10, 22.5);
  CHECK(level_of(with_series("2026-07-20", warm, "2026-07-20")) == AdvisoryLevel::caution);
  CHECK(level_of(with_series("2026-07-20", warm, "2026-07-21")) == AdvisoryLevel::caution);
  CHECK(level_of(with_series("2026-07-20", warm, "2026-07-22")) == AdvisoryLevel::stop);
  SeasonQuestion question = north();
  question.date = parse_date("2026-07-20");
  question.estimate = SeasonQuestion::Estimate{Celsius(22.5), CelsiusStep(0), "profile", 24.0};
  CHECK(level_of(question) == AdvisoryLevel::caution);
  question.estimate->age = 48;
  CHECK(level_of(question) == AdvisoryLevel::stop);
}

TEST_CASE("an older or warmer reading never eases the advice") {
  for (const double age : {0.0, 24.0, 36.5, 72.0}) {
    AdvisoryLevel before = AdvisoryLevel::none;
    for (double t = 18.0; t <= 26.0; t += 0.05) {
      const AdvisoryLevel now = level_of(rising_at(t, age));
      INFO(t << " C, " << age << " h");
      CHECK(now >= before);
      CHECK(level_of(rising_at(t, age + 12)) >= now);
      before = now;
    }
  }
}

TEST_CASE("above 21 C without the last five days the level is caution, with the request for them") {
  CHECK(level_of(rising_at(21.0)) == AdvisoryLevel::none);
  CHECK(level_of(rising_at(21.05)) == AdvisoryLevel::caution);
  CHECK(mention(ask(rising_at(21.05)).advisory.reasons, "last five days"));
  CHECK(mention(ask(rising_at(22.5)).advisory.reasons, "last five days"));
  CHECK(ask(rising_at(21.05)).warm_water);
  CHECK_FALSE(ask(rising_at(21.0)).warm_water);
  // five days that are known lie below the caution line of 21.1 C
  const SeasonQuestion known = with_series("2026-07-20", std::vector<double>(10, 21.05), "2026-07-20");
  CHECK(level_of(known) == AdvisoryLevel::none);
  // two of five do not tell
  const SeasonAnswer few = ask(with_series("2026-07-20", {21.05, 21.05}, "2026-07-20"));
  CHECK(few.advisory.level == AdvisoryLevel::caution);
  // fish of warm water have no stop that five days would count for
  CHECK(level_of(rising_at(22.5), "largemouth-bass") == AdvisoryLevel::none);
}

TEST_CASE("gaps among the last five days are said") {
  SeasonQuestion question = with_series("2026-07-20", std::vector<double>(10, 19), "2026-07-20");
  CHECK_FALSE(mention(ask(question).notes, "gaps"));
  question.series.erase(question.series.end() - 3);
  CHECK(mention(ask(question).notes, "4 of the 5 days up to 2026-07-20"));
}

TEST_CASE("the warmest of what was measured decides the heat stop") {
  SeasonQuestion question = with_series("2026-07-20", {21, 21, 21, 21, 21, 21, 21, 21, 21, 21}, "2026-07-20");
  question.series.push_back({"2026-07-20", Celsius(24.2)});  // an afternoon of the same day
  question.water_temp = Celsius(21);
  const SeasonAnswer beside_series = ask(question);
  CHECK(beside_series.no_spots);
  CHECK(mention(beside_series.advisory.reasons, "a reading of the series is 24.2 C (75.6 F)"));

  question = north();
  question.date = parse_date("2026-07-20");
  question.water_temp = Celsius(21);
  question.estimate = SeasonQuestion::Estimate{Celsius(24.2), CelsiusStep(0), "profile", 24.0};
  const SeasonAnswer beside_profile = ask(question);
  CHECK(beside_profile.no_spots);
  CHECK(beside_profile.water_temp == Celsius(21));
  CHECK(mention(beside_profile.advisory.reasons, "the top of the profile is 24.2 C (75.6 F)"));
  question.water_temp = Celsius(24.5);  // and the given one, where that is the warmer
  CHECK(mention(ask(question).advisory.reasons, "the water is 24.5 C (76.1 F)"));
  // what is only worked out from the air does not beat a thermometer
  question.water_temp = Celsius(21);
  question.estimate->source = "model";
  CHECK_FALSE(ask(question).no_spots);
}

TEST_CASE("the spawn of a series that has ended is remembered until it is plainly over") {
  // it began on 10 May and the series ends on the 15th
  const std::vector<double> spring = {6, 7, 8, 9, 10, 11, 10, 9, 8, 8};
  SeasonQuestion question = with_series("2026-05-15", spring, "2026-05-28");
  question.water_temp = Celsius(7);  // a cold snap, two weeks later
  const SeasonAnswer snap = ask(question);
  CHECK(only_phase(snap) == "spawn");
  CHECK(snap.no_spots);
  CHECK(mention(snap.advisory.reasons, "on 2026-05-15, the last day of the series, the spawn"));
  CHECK(mention(snap.advisory.reasons, "Look again"));
  question.water_temp = Celsius(16.9);
  CHECK(ask(question).no_spots);
  question.water_temp = Celsius(17);  // the ground opens
  CHECK_FALSE(ask(question).no_spots);
  // leaving out the date is no way round
  question.date.reset();
  question.water_temp = Celsius(7);
  question.trend = Trend::rising;
  CHECK(ask(question).no_spots);
  // nor a phase by name
  question.phase = "pre-spawn";
  CHECK(ask(question).no_spots);
  // another year and the autumn are another matter
  question.phase.clear();
  question.date = parse_date("2027-05-01");
  CHECK_FALSE(ask(question).no_spots);
  question.date = parse_date("2026-10-10");
  question.trend = Trend::falling;
  CHECK_FALSE(ask(question).no_spots);
}

TEST_CASE("likely spawning ground is closed from 3 C before the spawn to 17 C, in rising water") {
  const auto closed = [](double t, Trend trend = Trend::rising, const char* species = "muskellunge") {
    SeasonQuestion question = rising_at(t);
    question.trend = trend;
    return !ask(question, species).closed_grounds.empty();
  };
  CHECK_FALSE(closed(4.9));
  CHECK(closed(5));
  CHECK(closed(12));
  CHECK(closed(16.99));
  CHECK_FALSE(closed(17));
  CHECK_FALSE(closed(12, Trend::falling));
  CHECK_FALSE(closed(16, Trend::rising, "smallmouth-bass"));  // no ground of its own is drawn
  // fish that the lake holds have theirs as well
  SeasonQuestion question = rising_at(16.5);
  question.holds = {&species("muskellunge")};
  CHECK(ask(question, "walleye").closed_grounds == std::vector<const Profile*>{&species("muskellunge")});
  // a day of 17 C with colder ones before it
  SeasonQuestion warming =
      with_series("2026-06-01", {15, 15, 15.7, 15.7, 15.8, 15.9, 16, 16.5, 16.5, 17.2}, "2026-06-01");
  CHECK_FALSE(ask(warming).closed_grounds.empty());

  const Profile& musky = species("muskellunge");
  std::vector<std::string> names;
  for (const Phase& phase : musky.phases) {
    if (ground_closed_in(musky, phase)) names.push_back(phase.name);
  }
  CHECK(names == std::vector<std::string>{"pre-spawn", "spawn", "post-spawn"});
}

TEST_CASE("phases that lie wholly above the caution line are at caution, by name too") {
  const Profile& musky = species("muskellunge");
  std::vector<std::string> names;
  for (const Phase& phase : musky.phases) {
    if (warm_water_in(musky, phase)) names.push_back(phase.name);
  }
  CHECK(names == std::vector<std::string>{"summer", "heat-stop"});
  SeasonQuestion question = north();
  question.phase = "summer";
  CHECK(level_of(question) == AdvisoryLevel::caution);
  CHECK(ask(question).warm_water);
}

TEST_CASE("lake trout spawn on falling water, and the memory of it runs the other way") {
  // 8-13 C in autumn: Sly & Evans 1996
  SeasonQuestion question = north();
  question.date = parse_date("2026-10-20");
  for (const double t : {8.0, 10.0, 12.99}) {
    question.water_temp = Celsius(t);
    CHECK(only_phase(ask(question, "lake-trout")) == "spawn");
    CHECK(ask(question, "lake-trout").no_spots);
  }
  question.water_temp = Celsius(13);
  CHECK_FALSE(ask(question, "lake-trout").no_spots);
  question.water_temp = Celsius(7.99);
  CHECK_FALSE(ask(question, "lake-trout").no_spots);
  question.date = parse_date("2026-05-20");  // the same water in spring
  question.water_temp = Celsius(10);
  CHECK_FALSE(ask(question, "lake-trout").no_spots);

  const auto phase_after = [](std::vector<double> series, const std::string& last) {
    return only_phase(ask(with_series(last, series, last), "lake-trout"));
  };
  // a warm spell after it began, although the days are back above 13 C
  CHECK(phase_after({15, 15, 14, 14, 13.5, 13, 12.5, 12.5, 13.5, 13.5}, "2026-10-10") == "spawn");
  // until the mean of five days is below 8 C
  CHECK(phase_after({12, 11, 10, 10, 9, 9, 9, 8, 7.5, 7}, "2026-10-25") == "spawn");
  CHECK(phase_after({10, 9, 9, 8.5, 8, 8, 8, 7.9, 7.5, 7}, "2026-10-28") == "post-spawn");
  // and it does not outlast its half of the year: a lake that stayed at 9 C
  std::vector<double> mild(120, 9.0);
  for (std::size_t i = 0; i < mild.size(); ++i) mild[i] -= 0.002 * static_cast<double>(i);
  CHECK(phase_after(mild, "2027-01-25") == "spawn");
  CHECK(phase_after(mild, "2027-02-10") == "early-summer");
  // another species of the same lake is stopped by it
  SeasonQuestion held = with_series("2026-10-10", {15, 15, 14, 14, 13.5, 13, 12.5, 12, 11, 11}, "2026-10-10");
  held.holds = {&species("lake-trout")};
  const SeasonAnswer walleye = ask(held, "walleye");
  CHECK(walleye.no_spots);
  CHECK(mention(walleye.advisory.reasons, "The lake also holds lake trout"));
  CHECK(mention(walleye.advisory.reasons, "falling 8 to 13 C"));
}
