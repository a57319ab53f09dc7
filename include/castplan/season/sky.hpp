// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <optional>
#include <string_view>
#include <utility>

#include "castplan/geo/coordinate.hpp"
#include "castplan/season/date.hpp"

namespace castplan {

/// A moment of universal time.
using Instant = std::chrono::sys_seconds;

/// What a body that neither rises nor sets within a day does.
enum class Course { rises_or_sets, up_all_day, down_all_day };

struct Daylight {
  std::optional<Instant> dawn, sunrise, sunset, dusk;  ///< dawn and dusk: civil twilight, the sun 6 degrees down
  Course sun = Course::rises_or_sets;                  ///< polar day and polar night
  Course twilight = Course::rises_or_sets;             ///< of the light: up_all_day where it never gets dark
};

enum class MoonPhase {
  new_moon,
  waxing_crescent,
  first_quarter,
  waxing_gibbous,
  full_moon,
  waning_gibbous,
  last_quarter,
  waning_crescent
};
std::string_view name_of(MoonPhase phase);  ///< "new moon", "waxing crescent"...

struct Moonlight {
  std::optional<Instant> moonrise, moonset;
  Course moon = Course::rises_or_sets;
  MoonPhase phase{};  ///< in the middle of the day; a quarter, new or full within 12 hours of it
  double lit{};       ///< share of the disc that is lit then, 0 to 1
};

/// Sun and moon over a place between two moments, most often a civil day. The first rise and the last set in it. A rise
/// is the upper limb on a level horizon with 34' of refraction, at the level of the place: hills hide more. Within a
/// minute of exact theory between 65 S and 65 N for 1950 to 2050; closer to the poles bodies graze the horizon and
/// minutes lose their meaning. Two crossings less than five minutes apart are missed.
/// Source: Meeus (1998), Astronomical Algorithms, ch. 12, 22, 25, 47 and 48.
Daylight daylight_between(LonLat place, Instant from, Instant to);
Moonlight moonlight_between(LonLat place, Instant from, Instant to);

/// The day of a date where no time zone is known: from midnight to midnight of the sun's mean time at the longitude.
std::pair<Instant, Instant> mean_solar_day(Date date, Longitude longitude);

}  // namespace castplan
