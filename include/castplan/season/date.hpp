// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <string>
#include <string_view>

namespace castplan {

using Date = std::chrono::year_month_day;

/// "2026-06-10". Throws InputError for anything else, impossible days included.
Date parse_date(std::string_view text);
std::string date_text(Date date);

/// True when the day of the year lies in [from, to], both MM-DD and included; from after to runs over the new year.
/// Throws InputError for a malformed pair.
bool in_season(Date date, std::string_view from, std::string_view to);

}  // namespace castplan
