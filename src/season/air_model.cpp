// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/air_model.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

constexpr double kSpinUp = 3;  // times tau: what the first day left behind is then under 5 %
constexpr days kLongestGap{3}, kFresh{2};

double settling_days(Metres mean_depth) { return 5 + 1.5 * mean_depth.value(); }

// Several readings of a day count with their mean.
std::map<sys_days, Celsius> by_day(std::span<const DatedTemperature> air, sys_days last) {
  std::map<sys_days, std::pair<double, int>> sums;
  for (const DatedTemperature& reading : air) {
    if (!std::isfinite(reading.temperature.value())) {
      throw InputError(fmt::format("air temperatures, {}: expected a number", reading.date));
    }
    const sys_days day = parse_date(reading.date);
    if (day > last) continue;
    auto& [sum, count] = sums[day];
    sum += reading.temperature.value();
    ++count;
  }
  std::map<sys_days, Celsius> out;
  for (const auto& [day, sum] : sums) out.emplace(day, Celsius(sum.first / sum.second));
  return out;
}

}  // namespace

double daily_share(Metres mean_depth) { return 1 - std::exp(-1 / settling_days(mean_depth)); }

Celsius smoothed(Celsius before, Celsius air, double share) { return before + (air - before) * share; }

std::optional<ModelledTemperature> water_from_air(std::span<const DatedTemperature> air, Date date, Metres mean_depth) {
  const auto known = by_day(air, sys_days(date));
  if (known.empty() || sys_days(date) - known.rbegin()->first > kFresh) return std::nullopt;
  // the run of days without a long gap that ends with the newest
  auto first = std::prev(known.end());
  while (first != known.begin() && first->first - std::prev(first)->first <= kLongestGap + days(1)) --first;
  const sys_days last = known.rbegin()->first;
  if (static_cast<double>((last - first->first).count()) < kSpinUp * settling_days(mean_depth)) return std::nullopt;
  const double share = daily_share(mean_depth);
  Celsius water = std::max(first->second, Celsius(0));
  Celsius today = first->second;
  for (sys_days day = first->first; day <= last; day += days(1)) {
    if (const auto found = known.find(day); found != known.end()) today = found->second;
    water = std::max(smoothed(water, today, share), Celsius(0));  // under ice the lake forgets the frost
  }
  return ModelledTemperature{water, kAirModelError, date_text(Date(last))};
}

std::optional<Celsius> coldest_month(std::span<const DatedTemperature> air) {
  constexpr int kLeastDays = 20;
  std::array<std::pair<double, int>, 12> months{};
  for (const DatedTemperature& reading : air) {
    auto& [sum, count] = months[static_cast<unsigned>(parse_date(reading.date).month()) - 1];
    sum += reading.temperature.value();
    ++count;
  }
  std::optional<Celsius> coldest;
  for (const auto& [sum, count] : months) {
    if (count < kLeastDays) return std::nullopt;
    const Celsius mean(sum / count);
    coldest = coldest ? std::min(*coldest, mean) : mean;
  }
  return coldest;
}

Celsius yearly_course(Celsius mean, CelsiusStep swing, int warmest_day, int day) {
  return std::max(Celsius(0), mean + swing * std::cos(2 * std::numbers::pi * (day - warmest_day) / 365.0));
}

}  // namespace castplan
