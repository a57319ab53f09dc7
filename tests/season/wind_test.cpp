// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/wind.hpp"

#include <catch2/catch.hpp>

#include "castplan/geo/error.hpp"

using namespace castplan;
using namespace std::chrono_literals;

// Exact by definition: a mile 1609.344 m, a nautical mile 1852 m.
TEST_CASE("wind as people say it") {
  CHECK(parse_wind("12 mph from 230").speed.value() == Approx(12 * 1609.344 / 3600));
  CHECK(parse_wind("12 mph from 230").from == Degrees(230));
  CHECK(parse_wind("12 mph from 230").gust == parse_wind("12 mph from 230").speed);
  CHECK(parse_wind("10kt from SW").speed.value() == Approx(10 * 1852 / 3600.0));
  CHECK(parse_wind("10kt from SW").from == Degrees(225));
  CHECK(parse_wind("18 km/h gusting 36 km/h from the north-northwest").gust == MetresPerSecond(10));
  CHECK(parse_wind("18 km/h gusting 36 km/h from the north-northwest").from == Degrees(337.5));
  CHECK(parse_wind("5 m/s from 360").from == Degrees(0));
  CHECK(parse_wind("5 m/s from 0.5 degrees").from == Degrees(0.5));
  CHECK(parse_wind("0 m/s from N").speed == MetresPerSecond(0));
  CHECK(parse_wind("5 M/S FROM southwest").from == Degrees(225));
}

TEST_CASE("a wind that says too little is refused with an example") {
  for (const char* text : {"", "12", "12 mph", "12 from 230", "mph from 230", "12 mph 230", "12 mph from",
                           "12 mph from up", "12 mph from 361", "12 mph from -5", "-3 mph from 230", "400 mph from 230",
                           "nan mph from 3", "12 mph from 230 west", "12 mph gusting from 230",
                           "20 mph gusting 12 mph from 3", "5 furlongs from N", "inf m/s from N"}) {
    INFO(text);
    CHECK_THROWS_AS(parse_wind(text), InputError);
  }
  CHECK_THROWS_WITH(parse_wind("12"), Catch::Matchers::Contains("12 mph from 230"));
}

TEST_CASE("wind in words") {
  CHECK(wind_text(parse_wind("5 m/s from SW"), Units::metric) == "5 m/s from the southwest (225 degrees)");
  CHECK(wind_text(parse_wind("12 mph gusting 20 mph from 230"), Units::imperial) ==
        "12 mph from the southwest (230 degrees), gusts 20 mph");
}

TEST_CASE("the strongest hour of a day") {
  const auto noon = std::chrono::sys_seconds(std::chrono::sys_days(std::chrono::year(2026) / 6 / 10)) + 12h;
  const auto hour = [&](int at, double speed, double gust) {
    return WindReading{noon + std::chrono::hours(at), {MetresPerSecond(speed), MetresPerSecond(gust), Degrees(90)}};
  };
  const std::vector<WindReading> hours{hour(-20, 30, 30), hour(-1, 6, 8), hour(0, 5, 11), hour(1, 9, 11),
                                       hour(13, 40, 40)};
  REQUIRE(strongest(hours, noon - 12h, noon + 12h) != nullptr);
  CHECK(strongest(hours, noon - 12h, noon + 12h)->time == noon + 1h);  // the same gust, more wind
  CHECK(strongest(hours, noon + 2h, noon + 3h) == nullptr);
  CHECK(strongest({}, noon, noon + 3h) == nullptr);
}
