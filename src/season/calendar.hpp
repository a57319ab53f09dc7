// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>

#include "castplan/geo/coordinate.hpp"
#include "castplan/season/date.hpp"
#include "castplan/season/profile.hpp"

namespace castplan {

/// Between the tropics the date says nothing of warming or cooling.
bool tropical(Latitude latitude);

/// True in the half-year in which falling water means autumn: 1 August to 31 January north of the equator, 1 February
/// to 31 July south of it. Never between the tropics.
bool autumn_half(Date date, Latitude latitude);

/// What stands in messages: "1 August to 31 January".
const char* autumn_half_text(Latitude latitude);

/// The trend that counts, from what was measured or given on a date: outside the autumn half-year a fall is a cold
/// snap and counts as rising; with nothing measured or given the half-year decides. Between the tropics nothing but
/// the measured or given trend does.
std::optional<Trend> applied_trend(std::optional<Trend> seen, Date date, Latitude latitude);

/// The first day of the year of the fish that a date belongs to, counted from midwinter: 1 January north of the
/// equator, 1 July south of it.
Date midwinter_before(Date date, Latitude latitude);

}  // namespace castplan
