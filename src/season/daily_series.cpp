// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "season/daily_series.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "castplan/geo/error.hpp"
#include "season/calendar.hpp"
#include "season/reach.hpp"

namespace castplan {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

constexpr int kMeanDays = 5;

struct Sum {
  double total{};
  double warmest = -std::numeric_limits<double>::infinity();
  int count{};
};

}  // namespace

void check_reading(const DatedTemperature& reading) {
  if (reading.temperature >= kColdestWater && reading.temperature <= kHottestWater) return;
  throw InputError(fmt::format(
      "water temperature of {}: {:g} C; lakes lie between {:g} and {:g} C, and the series must be in degrees Celsius",
      reading.date, reading.temperature.value(), kColdestWater.value(), kHottestWater.value()));
}

std::vector<DayTemperature> daily(std::span<const DatedTemperature> series, Date until) {
  std::map<sys_days, Sum> sums;
  for (const DatedTemperature& reading : series) {
    const double value = reading.temperature.value();
    if (std::isnan(value)) continue;
    check_reading(reading);
    const sys_days day = parse_date(reading.date);
    if (day > sys_days(until)) continue;
    Sum& sum = sums[day];
    sum.total += value;
    sum.warmest = std::max(sum.warmest, value);
    ++sum.count;
  }
  std::vector<DayTemperature> result;
  for (const auto& [day, sum] : sums) result.push_back({day, Celsius(sum.total / sum.count), Celsius(sum.warmest)});
  return result;
}

std::optional<Celsius> mean_of_days(std::span<const DayTemperature> series, sys_days last, int count) {
  double total = 0.0;
  int found = 0;
  // the wanted days stand near the end of what a caller passes, so look from there
  for (auto it = series.rbegin(); it != series.rend() && it->day > last - days(count); ++it) {
    if (it->day > last) continue;
    total += it->mean.value();
    ++found;
  }
  return found > 0 ? std::optional(Celsius(total / found)) : std::nullopt;
}

std::optional<Trend> trend_on(std::span<const DayTemperature> series, sys_days last) {
  const auto late = mean_of_days(series, last, kMeanDays);
  const auto early = mean_of_days(series, last - days(kMeanDays), kMeanDays);
  if (!late || !early) return std::nullopt;
  const double change = (*late - *early).value();
  if (std::abs(change) < 1e-9) return std::nullopt;
  return change > 0.0 ? Trend::rising : Trend::falling;
}

namespace {

// Day by day, whether the spawn of one trend has been entered and not been left at its far end.
bool holds_in(const Phase& spawn, Trend side, std::span<const DayTemperature> series, Latitude latitude) {
  const bool up = side == Trend::rising;
  const sys_days start = midwinter_before(Date(series.back().day), up ? latitude : Latitude{-latitude.degrees});
  bool holding = false;
  for (std::size_t i = 0; i < series.size(); ++i) {
    const sys_days day = series[i].day;
    if (day < start) continue;
    const auto past = series.first(i + 1);
    const auto trend = applied_trend(trend_on(past, day), Date(day), latitude);
    const bool autumn = autumn_half(Date(day), latitude);
    // the other half of the year ends it: for a spawn in spring the first fall of autumn does
    if (up ? trend == Trend::falling && autumn : !autumn && !tropical(latitude)) holding = false;
    const auto& interval = interval_of(spawn, trend.value_or(side));
    if (trend == side && holds(interval, series[i].mean)) holding = true;
    const auto mean = mean_of_days(past, day, kMeanDays);
    if (!holding || !mean) continue;
    if (up ? reaches(*mean, spawn.rising->to) : !reaches(*mean, spawn.falling->from)) holding = false;
  }
  return holding;
}

}  // namespace

bool spawn_holds(const Profile& profile, std::span<const DayTemperature> series, Latitude latitude) {
  const Phase* spawn = phase_named(profile, "spawn");
  if (!spawn || series.empty()) return false;
  return (spawn->rising && holds_in(*spawn, Trend::rising, series, latitude)) ||
         (spawn->falling && holds_in(*spawn, Trend::falling, series, latitude));
}

bool spawn_remembered(const Profile& profile, std::span<const DayTemperature> series, const Date& date,
                      Latitude latitude) {
  if (!spawn_holds(profile, series, latitude)) return false;
  const Phase& spawn = *phase_named(profile, "spawn");
  const bool autumn = autumn_half(date, latitude);
  if (!tropical(latitude) && autumn == spawn.rising.has_value()) return false;
  return series.back().day >= sys_days(midwinter_before(date, spawn.rising ? latitude : Latitude{-latitude.degrees}));
}

}  // namespace castplan
