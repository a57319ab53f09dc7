// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>

#include "castplan/season/profile.hpp"

namespace castplan {

/// True when a temperature is at or above a limit. The slack lets 46.4 F, which is 7.999999999999999 C, be 8 C.
constexpr bool reaches(Celsius temperature, Celsius limit) { return temperature.value() >= limit.value() - 1e-9; }

inline bool holds(const std::optional<Phase::Interval>& interval, Celsius temperature) {
  return interval && reaches(temperature, interval->from) && !reaches(temperature, interval->to);
}

inline const std::optional<Phase::Interval>& interval_of(const Phase& phase, Trend trend) {
  return trend == Trend::rising ? phase.rising : phase.falling;
}

}  // namespace castplan
