// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "castplan/geo/quantity_text.hpp"
#include "castplan/grid/observations.hpp"
#include "castplan/season/date.hpp"

namespace castplan {

/// "12 mph from 230", "5 m/s from NW", "10 kt gusting 18 kt from southwest": speed with its unit (m/s, km/h, mph, kt),
/// maybe gusts, and where it blows from, in degrees clockwise from true north or by one of 16 compass names. Throws
/// InputError that says what was found and gives an example.
Wind parse_wind(std::string_view text);

/// "5 m/s"; miles an hour for imperial readers.
std::string speed_text(MetresPerSecond speed, Units units);

/// "5 m/s from the southwest (230 degrees), gusts 8 m/s"; miles an hour for imperial readers.
std::string wind_text(const Wind& wind, Units units);

/// The strongest hour from one moment to another, of equals the first; nullptr when there is none.
const WindReading* strongest(std::span<const WindReading> hours, std::chrono::sys_seconds from,
                             std::chrono::sys_seconds to);

}  // namespace castplan
