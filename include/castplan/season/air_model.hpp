// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <span>

#include "castplan/geo/quantity.hpp"
#include "castplan/grid/observations.hpp"
#include "castplan/season/date.hpp"

namespace castplan {

/// Share of the way to today's air that the water goes in a day: 1 - exp(-1 / tau), tau = 5 + 1.5 x mean depth in days.
/// The time is a design choice: deep lakes follow slowly. Form after Kettle et al. (2004), Limnol. Oceanogr. 49,
/// 271-282.
double daily_share(Metres mean_depth);

/// One step of exponential smoothing.
Celsius smoothed(Celsius before, Celsius air, double share);

/// Temperature of the surface from a series of daily air temperatures, and how far it may be off.
struct ModelledTemperature {
  Celsius value;
  CelsiusStep error;  ///< standard error
  std::string last;   ///< newest day of the series that was used
};

/// Kettle et al. found 1.0 C (cross-validated) where the model was fitted to the lake and knew the sun; here it knows
/// neither, so twice that is taken: a design choice.
inline constexpr CelsiusStep kAirModelError{2.0};

/// Smoothed air temperature up to a date, from 0 C. None where the series cannot carry it: fewer days than three times
/// tau before its end, more than 3 days missing in a row among these, or an end more than 2 days before the date. A
/// missing day counts as the day before. Days after the date are left out. Throws InputError for temperatures that are
/// not numbers. A measured reading is always better.
std::optional<ModelledTemperature> water_from_air(std::span<const DatedTemperature> air, Date date, Metres mean_depth);

/// Mean air temperature of the coldest calendar month; none unless the series has at least 20 days of each of the
/// twelve months.
std::optional<Celsius> coldest_month(std::span<const DatedTemperature> air);

/// Yearly course of a surface: mean + swing cos(2 pi (day - warmest) / 365), no colder than 0 C. Common practice; for
/// those who compare, too coarse to decide a phase.
Celsius yearly_course(Celsius mean, CelsiusStep swing, int warmest_day, int day);

}  // namespace castplan
