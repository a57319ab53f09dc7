// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/air_model.hpp"

#include <catch2/catch.hpp>
#include <chrono>
#include <cmath>
#include <numbers>
#include <vector>

#include "castplan/geo/error.hpp"
#include "questions.hpp"
#include "truth.hpp"

using namespace castplan;

namespace {

std::vector<DatedTemperature> even(const char* last, double celsius, int days) {
  return days_up_to(last, std::vector<double>(static_cast<std::size_t>(days), celsius));
}

}  // namespace

TEST_CASE("smoothing and the yearly course give the published rows") {
  Celsius water(10);
  for (const double air : {12.0, 15.0, 18.0, 14.0, 16.0}) water = smoothed(water, Celsius(air), 0.1);
  near_row("TH-EXP", water.value());
  near_row("TH-SIN-120", yearly_course(Celsius(12), CelsiusStep(11), 210, 120).value());
  CHECK(yearly_course(Celsius(3), CelsiusStep(11), 210, 20) == Celsius(0));
}

TEST_CASE("deep lakes follow the air slowly") {
  // 1 - exp(-1 / 5), and tau = 5 + 1.5 x 10 = 20 days
  CHECK(daily_share(Metres(0)) == Approx(0.181269).margin(1e-6));
  CHECK(daily_share(Metres(10)) == Approx(0.048771).margin(1e-6));
}

TEST_CASE("water from steady air is the air; from a step it is the closed form") {
  const Date date = parse_date("2026-06-10");
  const Metres depth(4);  // tau 11 days
  CHECK(water_from_air(even("2026-06-10", 17, 60), date, depth)->value.value() == Approx(17));
  // 40 days of 5 C, then 12 of 20 C: 20 - 15 exp(-12 / 11)
  std::vector<double> air(40, 5.0);
  air.insert(air.end(), 12, 20.0);
  const auto water = water_from_air(days_up_to("2026-06-10", air), date, depth);
  REQUIRE(water);
  CHECK(water->value.value() == Approx(20 - 15 * std::exp(-12 / 11.0)).margin(1e-9));
  CHECK(water->error == CelsiusStep(2));
  CHECK(water->last == "2026-06-10");
}

// Closed form: a sine through exponential smoothing comes out smaller and late; with many steps to tau its size is
// 1 / sqrt(1 + (w tau)^2). 2 % for the steps of a day.
TEST_CASE("a year of air gives a smaller and later year of water") {
  const Metres depth(10);  // tau 20 days
  const double w = 2 * std::numbers::pi / 365;
  std::vector<double> air;
  for (int i = 0; i < 730; ++i) air.push_back(12 + 11 * std::sin(w * i));
  const auto series = days_up_to("2026-12-31", air);
  double warmest = -99;
  int warmest_day = 0;
  for (int i = 365; i < 730; ++i) {
    const auto water = water_from_air(series, parse_date(series[static_cast<std::size_t>(i)].date), depth);
    REQUIRE(water);
    if (water->value.value() > warmest) warmest = water->value.value(), warmest_day = i;
  }
  CHECK(warmest == Approx(12 + 11 / std::sqrt(1 + w * w * 400)).epsilon(0.02));
  const double late = std::atan(w * 20) / w;  // days
  CHECK(warmest_day == Approx(365 + 365 / 4.0 + late).margin(2));
}

TEST_CASE("frost does not reach under the ice") {
  std::vector<double> air(60, -20.0);
  air.insert(air.end(), 10, 10.0);
  const auto water = water_from_air(days_up_to("2026-04-10", air), parse_date("2026-04-10"), Metres(4));
  CHECK(water->value.value() == Approx(10 - 10 * std::exp(-10 / 11.0)).margin(1e-9));
}

TEST_CASE("a series that cannot carry the model gives nothing") {
  const Date date = parse_date("2026-06-10");
  const Metres depth(4);  // 33 days are needed
  CHECK(!water_from_air({}, date, depth));
  CHECK(!water_from_air(even("2026-06-10", 17, 30), date, depth));
  CHECK(water_from_air(even("2026-06-10", 17, 36), date, depth));
  CHECK(!water_from_air(even("2026-06-07", 17, 90), date, depth));  // three days old
  CHECK(water_from_air(even("2026-06-08", 17, 90), date, depth));
  // days after the date are left out
  CHECK(water_from_air(even("2026-08-10", 17, 200), date, depth)->last == "2026-06-10");
  auto gap = even("2026-06-10", 17, 90);
  gap.erase(gap.end() - 12, gap.end() - 8);  // four days
  CHECK(!water_from_air(gap, date, depth));
  auto small = even("2026-06-10", 17, 90);
  small.erase(small.end() - 12, small.end() - 9);  // three
  CHECK(water_from_air(small, date, depth));
  auto bad = even("2026-06-10", 17, 90);
  bad[3].temperature = Celsius(std::nan(""));
  CHECK_THROWS_AS(water_from_air(bad, date, depth), InputError);
}

TEST_CASE("the coldest month needs the whole year") {
  std::vector<double> air;
  for (int i = 0; i < 365; ++i) air.push_back(10 - 15 * std::cos(2 * std::numbers::pi * (i - 15) / 365.0));
  const auto year = days_up_to("2025-12-31", air);
  // January about its middle: 10 - 15 x the mean of cos over 31 days
  CHECK(coldest_month(year)->value() == Approx(-4.8).margin(0.1));
  CHECK(!coldest_month(std::vector<DatedTemperature>(year.begin(), year.begin() + 300)));
  CHECK(!coldest_month({}));
}
