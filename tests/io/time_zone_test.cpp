// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/time_zone.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <ctime>

#include "io/rasters.hpp"
#include "support/programs.hpp"

using namespace castplan;
using namespace std::chrono_literals;
using castplan::rasters::complaint;
using Catch::Matchers::Contains;
using std::chrono::sys_days;
using std::chrono::sys_seconds;
using std::chrono::year;

// The C library reads the same database: its answer for each zone and moment, a week apart over fifty years, also past
// the last change that files hold.
TEST_CASE("clocks agree with the C library") {
  const char* before = std::getenv("TZ");
  const std::string kept = before == nullptr ? "" : before;
  for (const char* name :
       {"America/Halifax", "America/Chicago", "Europe/Oslo", "Pacific/Auckland", "Etc/GMT+3", "Etc/GMT-14", "UTC",
        "Asia/Kathmandu", "Australia/Lord_Howe", "America/St_Johns", "Africa/Casablanca", "Europe/Dublin"}) {
    const TimeZone zone = read_time_zone(name);
    setenv("TZ", name, 1);
    tzset();
    for (std::time_t at = 315532800; at < 2524608000; at += 7 * 86400 + 3607) {
      std::tm local{};
      localtime_r(&at, &local);
      INFO(name << " at " << at);
      CHECK(clock_at(zone, sys_seconds(std::chrono::seconds(at))).ahead.count() == local.tm_gmtoff);
    }
  }
  before == nullptr ? unsetenv("TZ") : setenv("TZ", kept.c_str(), 1);
  tzset();
}

// Common knowledge of civil time: Halifax keeps UTC-4, and UTC-3 from the second Sunday of March to the first of
// November.
TEST_CASE("days begin at midnight by the zone's clock, and are 23 or 25 hours long when clocks change") {
  const TimeZone zone = read_time_zone("America/Halifax");
  CHECK(start_of_day(zone, year(2026) / 6 / 10) == sys_days(year(2026) / 6 / 10) + 3h);
  CHECK(start_of_day(zone, year(2026) / 12 / 10) == sys_days(year(2026) / 12 / 10) + 4h);
  CHECK(start_of_day(zone, year(2026) / 3 / 9) - start_of_day(zone, year(2026) / 3 / 8) == 23h);
  CHECK(start_of_day(zone, year(2026) / 11 / 2) - start_of_day(zone, year(2026) / 11 / 1) == 25h);
  CHECK(clock_text(zone, sys_days(year(2026) / 6 / 10) + 8h + 27min + 29s) == "05:27");
  CHECK(clock_text(zone, sys_days(year(2026) / 6 / 10) + 8h + 27min + 30s) == "05:28");
  CHECK(clock_text(zone, sys_days(year(2026) / 6 / 10) + 2h + 59min + 40s) == "00:00");
  CHECK(clock_at(zone, sys_days(year(2026) / 6 / 10)).letters == "ADT");
  const TimeZone fixed = read_time_zone("Etc/GMT+3");
  CHECK(start_of_day(fixed, year(2026) / 6 / 10) == sys_days(year(2026) / 6 / 10) + 3h);
  CHECK(clock_at(fixed, sys_days(year(2026) / 6 / 10)).letters == "-03");
  // Beirut's clocks go from midnight to one o'clock on the last Sunday of March: that day begins at one
  const TimeZone skips = read_time_zone("Asia/Beirut");
  const auto begin = start_of_day(skips, year(2026) / 3 / 29);
  CHECK(begin == sys_days(year(2026) / 3 / 28) + 22h);
  CHECK(clock_text(skips, begin) == "01:00");
}

TEST_CASE("a name that is no time zone is refused in clear words") {
  for (const char* name : {"Europe/Atlantis", "GMT+3:30", "../../etc/passwd", "/etc/passwd", "", "Etc/GMT+13",
                           "America", "Europe/Oslo/", "zone.tab", "tzdata.zi"}) {
    INFO(name);
    CHECK_THAT(complaint([&] { read_time_zone(name); }), Contains("expected an IANA name"));
  }
  CHECK_THAT(complaint([] { read_time_zone("Europe/Oslo", "/nowhere"); }), Contains("no time zone data"));
  CHECK(read_time_zone("Etc/GMT+3", "/nowhere").clocks.front().ahead == -3h);
  programs::Scratch scratch;
  for (const std::string& bytes : {std::string("TZif"), std::string("TZif2") + std::string(39, '\xff'),
                                   std::string("TZif2") + std::string(39, '\0') + "TZif2" + std::string(39, '\0')}) {
    scratch.write("Broken", bytes);
    CHECK_THAT(complaint([&] { read_time_zone("Broken", scratch.path("")); }), Contains("its file is damaged"));
  }
}

TEST_CASE("a moment is read by the zone's clock or by its own offset") {
  const TimeZone halifax = read_time_zone("America/Halifax");  // UTC-3 in summer, UTC-4 in winter
  const auto june = sys_days(year(2026) / 6 / 10) + 10h + 30min;
  CHECK(moment_of(halifax, "2026-06-10T07:30:00") == june);
  CHECK(moment_of(halifax, "2026-06-10 07:30") == june);
  CHECK(moment_of(halifax, "2026-06-10T10:30:00Z") == june);
  CHECK(moment_of(halifax, "2026-06-10T12:30:00+02:00") == june);
  CHECK(moment_of(halifax, "2026-06-10T07:30:00.25-03:00") == june);
  CHECK(moment_of(halifax, "2026-01-10T06:30") == sys_days(year(2026) / 1 / 10) + 10h + 30min);
  // the morning on which the clocks go forward, and just before and after
  CHECK(moment_of(halifax, "2026-03-08T01:30") == sys_days(year(2026) / 3 / 8) + 5h + 30min);
  CHECK(moment_of(halifax, "2026-03-08T03:30") == sys_days(year(2026) / 3 / 8) + 6h + 30min);
  for (const char* none : {"2026-06-10", "", "noon", "2026-06-10T25:00", "2026-06-10T07:30+99:00"}) {
    CHECK_FALSE(moment_of(halifax, none));
  }
}
