// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "season/water.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "season/calendar.hpp"
#include "season/daily_series.hpp"

namespace castplan {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

constexpr int kFreshDays = 5;  // how old the newest reading may be
constexpr int kMeanDays = 5;
constexpr Date kEnd = std::chrono::year(9999) / 12 / 31;
// Bays and ramps in spring against the main lake: Dombeck 1979.
constexpr CelsiusStep kBayWarmer{1.5};

const char* word(Trend trend) { return trend == Trend::rising ? "rising" : "falling"; }

void check_given(Celsius given) {
  if (given >= kColdestWater && given <= kHottestWater) return;
  throw UsageError(
      fmt::format("water temperature {:g} C ({:g} F): lakes lie between {:g} and {:g} C; is the unit right?",
                  given.value(), to_fahrenheit(given), kColdestWater.value(), kHottestWater.value()));
}

// The days of the series if they may be used.
std::vector<DayTemperature> usable_days(const SeasonQuestion& question, std::vector<std::string>& notes) {
  if (question.series.empty()) return {};
  if (!question.date) {
    notes.push_back("The water temperature series is not used: it needs a date (--date).");
    return {};
  }
  auto series = daily(question.series, *question.date);
  if (series.empty()) {
    notes.push_back(fmt::format("The water temperature series is not used: it has no reading up to {}.",
                                date_text(*question.date)));
    return {};
  }
  if (sys_days(*question.date) - series.back().day > days(kFreshDays)) {
    notes.push_back(
        fmt::format("The water temperature series is not used: its newest reading, of {}, is more than {} "
                    "days older than {}.",
                    date_text(series.back().day), kFreshDays, date_text(*question.date)));
    return {};
  }
  return series;
}

// What was measured, else what was given.
std::optional<Trend> seen_trend(const SeasonQuestion& question, const std::vector<DayTemperature>& series,
                                std::vector<std::string>& notes) {
  const auto measured = series.empty() ? std::nullopt : trend_on(series, series.back().day);
  if (measured && question.trend && *measured != *question.trend) {
    notes.push_back(fmt::format("The series shows {} water; it is taken before the trend that was given, {}.",
                                word(*measured), word(*question.trend)));
  }
  return measured ? measured : question.trend;
}

std::optional<Trend> decide_trend(const SeasonQuestion& question, std::optional<Trend> seen,
                                  std::vector<std::string>& notes) {
  if (!question.date) return seen;
  const auto applied = applied_trend(seen, *question.date, question.latitude);
  if (seen == Trend::falling && applied == Trend::rising) {
    notes.push_back(fmt::format(
        "The water is falling, but {} lies outside {}: taken as a cold snap, so the phases of rising water apply.",
        date_text(*question.date), autumn_half_text(question.latitude)));
  }
  if (seen == Trend::rising && autumn_half(*question.date, question.latitude)) {
    notes.push_back(
        fmt::format("The water is rising although {} lies in the autumn half-year, {}: if that is but a warm "
                    "spell, the plan for falling water fits better.",
                    date_text(*question.date), autumn_half_text(question.latitude)));
  }
  return applied;
}

// The hottest of what was measured beside the temperature that decides the phase.
void raise_heat(Water& water, Celsius reading, const char* whose) {
  if (reading <= *water.heat) return;
  water.heat = reading;
  water.heat_from = whose;
}

void add_series(const SeasonQuestion& question, Water& water, std::vector<std::string>& notes) {
  const sys_days last = water.series.back().day;
  water.mean = mean_of_days(water.series, last, kMeanDays);
  raise_heat(water, water.series.back().warmest, "a reading of the series is");
  raise_heat(water, *water.mean, "the mean of the last 5 days is");
  for (const DayTemperature& day : water.series) water.days_known += day.day > last - days(kMeanDays) ? 1 : 0;
  if (water.days_known < kMeanDays && water.series.size() > static_cast<std::size_t>(water.days_known)) {
    notes.push_back(fmt::format("The series has gaps: {} of the 5 days up to {}; their mean is of those.",
                                water.days_known, date_text(Date(last))));
  }
  if (water.source == "series") water.age = hours_between(Date(last), *question.date);
}

void take_estimate(const SeasonQuestion::Estimate& estimate, Water& water, std::vector<std::string>& notes) {
  check_given(estimate.value);
  water.now = estimate.value;
  water.heat = estimate.value + estimate.error;
  water.source = estimate.source;
  water.age = estimate.age;
  if (!(estimate.error > CelsiusStep(0))) return;
  water.lowered = estimate.value + (-estimate.error);
  water.raised = estimate.value + estimate.error;
  notes.push_back(
      fmt::format("The water temperature is worked out, not measured: {}, give or take {:g} C; stops count both ends. "
                  "Measure it before the first cast.",
                  reading_text(estimate.value), estimate.error.value()));
}

}  // namespace

Water read_water(const SeasonQuestion& question, std::vector<std::string>& notes) {
  Water water;
  const auto series = usable_days(question, notes);
  if (question.water_temp) {
    check_given(*question.water_temp);
    water.now = question.water_temp;
    water.heat = question.water_temp;
    water.source = "given";
    water.age = question.reading_age;
    if (question.read_in_bay) water.lowered = *question.water_temp + (-kBayWarmer);
  } else if (!series.empty()) {
    water.now = series.back().mean;
    water.heat = series.back().mean;
    water.source = "series";
  } else if (question.estimate) {
    take_estimate(*question.estimate, water, notes);
  }
  if (!series.empty()) {
    water.series = series;
    add_series(question, water, notes);
  }
  if (water.now && question.estimate && question.estimate->source == "profile") {
    check_given(question.estimate->value);
    raise_heat(water, question.estimate->value, "the top of the profile is");
  }
  if (!question.series.empty()) water.memory = daily(question.series, question.date.value_or(kEnd));
  if (water.now) {
    water.trend = decide_trend(question, seen_trend(question, series, notes), notes);
  } else if (question.trend) {
    notes.push_back("The trend decides nothing without a water temperature.");
  }
  return water;
}

}  // namespace castplan
