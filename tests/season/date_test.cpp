// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/date.hpp"

#include <catch2/catch.hpp>

#include "castplan/geo/error.hpp"

using namespace castplan;

TEST_CASE("a date is read as written and printed the same") {
  for (const char* text : {"2026-06-10", "2024-02-29", "0999-01-01", "2026-12-31"}) {
    CHECK(date_text(parse_date(text)) == text);
  }
}

TEST_CASE("what is no date is refused, with the form that is") {
  for (const char* text : {"", "2026-6-10", "2026-02-29", "2026-13-01", "2026-00-10", "2026-06-31", "10.06.2026",
                           "2026-06-10T07:30", "2026/06/10", "+026-06-10", "2026-06-1 ", "26-06-10"}) {
    INFO(text);
    CHECK_THROWS_WITH(parse_date(text), Catch::Contains("YYYY-MM-DD") && Catch::Contains(text));
    CHECK_THROWS_AS(parse_date(text), InputError);
  }
}

TEST_CASE("a season holds both of its end days") {
  CHECK(in_season(parse_date("2026-05-25"), "05-25", "11-30"));
  CHECK(in_season(parse_date("2026-11-30"), "05-25", "11-30"));
  CHECK_FALSE(in_season(parse_date("2026-05-24"), "05-25", "11-30"));
  CHECK_FALSE(in_season(parse_date("2026-12-01"), "05-25", "11-30"));
  CHECK(in_season(parse_date("2026-07-04"), "07-04", "07-04"));
}

TEST_CASE("a season may run over the new year") {
  CHECK(in_season(parse_date("2026-11-15"), "11-15", "02-29"));
  CHECK(in_season(parse_date("2026-12-31"), "11-15", "02-29"));
  CHECK(in_season(parse_date("2027-01-01"), "11-15", "02-29"));
  CHECK(in_season(parse_date("2028-02-29"), "11-15", "02-29"));
  CHECK_FALSE(in_season(parse_date("2027-03-01"), "11-15", "02-29"));
  CHECK_FALSE(in_season(parse_date("2026-11-14"), "11-15", "02-29"));
}

TEST_CASE("a malformed season is refused whatever the date") {
  for (const char* bad : {"5-25", "05-32", "13-01", "00-01", "25-05", "0525", "2026-05-25", "02-30"}) {
    INFO(bad);
    CHECK_THROWS_AS(in_season(parse_date("2026-06-10"), bad, "11-30"), InputError);
    CHECK_THROWS_WITH(in_season(parse_date("2026-06-10"), "05-25", bad), Catch::Contains("MM-DD"));
  }
}
