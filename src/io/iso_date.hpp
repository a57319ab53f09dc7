// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <optional>
#include <string_view>

namespace castplan {

/// True for YYYY-MM-DD with a day that exists.
bool is_iso_date(std::string_view text);

/// True for MM-DD with a day that exists in some year.
bool is_season_day(std::string_view text);

/// YYYY-MM-DD, T or a blank, HH:MM, maybe :SS, maybe Z; none for anything else, another zone than UTC included.
std::optional<std::chrono::sys_seconds> utc_moment(std::string_view text);

}  // namespace castplan
