// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <optional>
#include <span>
#include <vector>

#include "castplan/geo/coordinate.hpp"
#include "castplan/grid/observations.hpp"
#include "castplan/season/date.hpp"
#include "castplan/season/profile.hpp"

namespace castplan {

/// One day of a temperature series.
struct DayTemperature {
  std::chrono::sys_days day;
  Celsius mean;
  Celsius warmest;
};

/// The days of a series up to a date, ascending. Unknown readings are left out. Throws InputError for a date or a
/// temperature that cannot be right.
std::vector<DayTemperature> daily(std::span<const DatedTemperature> series, Date until);

/// Mean of the days in (last - count, last]; none without a day there.
std::optional<Celsius> mean_of_days(std::span<const DayTemperature> days, std::chrono::sys_days last, int count);

/// Sign of the mean of the 5 days up to and with last less the mean of the 5 days before; none when a side has no
/// day, or both are equal.
std::optional<Trend> trend_on(std::span<const DayTemperature> days, std::chrono::sys_days last);

/// True when, day by day since midwinter, a day's phase was the spawn and the 5-day mean has not passed its upper end
/// since. Ends with the first fall of the autumn half-year. A spawn in falling water mirrors that: since midsummer, and
/// until the mean has passed the lower end or the half-year has ended. False for a profile with no phase named spawn.
bool spawn_holds(const Profile& profile, std::span<const DayTemperature> days, Latitude latitude);

/// The same for a series that ended before a date: what held at its last day still does, within the same half of the
/// same year.
bool spawn_remembered(const Profile& profile, std::span<const DayTemperature> days, const Date& date,
                      Latitude latitude);

/// Throws InputError for a temperature that no lake has, most often one in Fahrenheit.
void check_reading(const DatedTemperature& reading);

/// Lakes lie between these.
inline constexpr Celsius kColdestWater{-1.0};
inline constexpr Celsius kHottestWater{45.0};

}  // namespace castplan
