// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string_view>

#include "castplan/io/time_zone.hpp"

namespace castplan {

/// The clock at a moment by a rule as POSIX writes it in TZ: "<-03>3", "EST5EDT,M3.2.0,M11.1.0". None for a rule that
/// cannot be read. Days by month and week (M), by number without 29 February (J) and by number.
std::optional<TimeZone::Clock> clock_by_rule(std::string_view rule, std::chrono::sys_seconds at);

}  // namespace castplan
