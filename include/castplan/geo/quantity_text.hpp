// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

#include "castplan/geo/quantity.hpp"

namespace castplan {

/// Reading and printing quantities with their unit. A bare number is refused: UsageError-free here, every function
/// throws InputError that names the text, the units it knows and an example; callers add where the text stood.

/// "9ft", "2.7 m", "1.5 fathom", "12.5 km", "40 yd"
Metres parse_length(std::string_view text);
/// "58F", "14.5 C", "57 degF"
Celsius parse_temperature(std::string_view text);

enum class DepthUnit { metre, foot, us_foot, fathom };
/// Names as users and files write them: m, metre, meters, ft, feet, foot, US survey foot, fathom... Throws InputError.
DepthUnit parse_depth_unit(std::string_view text);
/// As lake files write it, and as parse_depth_unit reads it: m, ft, US survey foot, fathom.
std::string unit_text(DepthUnit unit);
double metres_per(DepthUnit unit);

enum class Units { metric, imperial };  ///< what people read; data files stay SI

/// "3.4 m" or "11 ft": a depth or length for people, one decimal of a metre, whole feet.
std::string length_text(Metres length, Units units);
/// "1.5 m to 3.0 m"; one length where both print alike.
std::string length_range_text(Metres from, Metres to, Units units);
/// "18 m" or "61 ft": a distance on the water for people, in whole units.
std::string distance_text(Metres distance, Units units);
/// "14.4 C" or "58 F".
std::string temperature_text(Celsius temperature, Units units);

/// "northwest": one of 16 compass names in words of 8 main points ("north-northwest" and so on).
std::string compass_words(Degrees bearing);

}  // namespace castplan
