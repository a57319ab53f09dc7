// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "castplan/write/plain_text.hpp"

namespace castplan {

/// A printed coordinate: millionths of a degree as degrees with six decimals.
std::string micro_degrees(std::int64_t micro);

/// Decimals that a value is printed with, by its unit: m two, % and degrees one, else four.
int value_decimals(std::string_view unit);

/// A bearing with decimals, in [0, 360): 359.96 becomes 0.0. NaN stays NaN.
double rounded_bearing(double degrees, int decimals);

}  // namespace castplan
