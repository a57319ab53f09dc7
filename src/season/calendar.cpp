// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "season/calendar.hpp"

#include <cmath>

namespace castplan {

bool tropical(Latitude latitude) {
  constexpr double kTropic = 23.44;  // the obliquity of the ecliptic, degrees
  return std::abs(latitude.degrees) < kTropic;
}

bool autumn_half(Date date, Latitude latitude) {
  if (tropical(latitude)) return false;
  const bool february_to_july = date.month() >= std::chrono::February && date.month() <= std::chrono::July;
  return february_to_july == (latitude.degrees < 0.0);
}

const char* autumn_half_text(Latitude latitude) {
  return latitude.degrees < 0.0 ? "1 February to 31 July" : "1 August to 31 January";
}

std::optional<Trend> applied_trend(std::optional<Trend> seen, Date date, Latitude latitude) {
  if (tropical(latitude)) return seen;
  if (!autumn_half(date, latitude)) return Trend::rising;
  return seen.value_or(Trend::falling);
}

Date midwinter_before(Date date, Latitude latitude) {
  using namespace std::chrono;
  if (latitude.degrees >= 0.0) return date.year() / January / 1;
  const Date july = date.year() / July / 1;
  return sys_days(date) >= sys_days(july) ? july : (date.year() - years(1)) / July / 1;
}

}  // namespace castplan
