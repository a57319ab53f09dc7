// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace castplan {

using Date = std::chrono::year_month_day;

/// "2026-06-10". Throws InputError for anything else, impossible days included.
Date parse_date(std::string_view text);
std::string date_text(Date date);

/// Hours between a day, taken at its noon, and the noon of another, whichever comes first.
double hours_between(Date day, Date other);

/// True when the day of the year lies in [from, to], both MM-DD and included; from after to runs over the new year.
/// Throws InputError for a malformed pair.
bool in_season(Date date, std::string_view from, std::string_view to);
/// The same where either may be missing: what has no dates of its own holds all year, and without a date all holds.
bool holds_on(const std::optional<Date>& date, std::string_view from, std::string_view to);

}  // namespace castplan
