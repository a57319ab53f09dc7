// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string_view>

#include "castplan/terrain/waves.hpp"

namespace castplan {

/// What is too rough for an open boat of at most 5 m. Design choices from published warnings.
struct RoughLimits {
  MetresPerSecond caution_wind, stop_wind;
  Metres caution_height, stop_height;
};
/// boat: motor, canoe or kayak; anything else counts as the most careful of them. A motor boat: caution from 7.5 m/s or
/// 0.4 m, stop from 10 m/s or 0.6 m. A canoe: 5 and 7.5 m/s, 0.2 and 0.3 m. A kayak: 6 and 8 m/s, 0.25 and 0.4 m.
RoughLimits rough_limits(std::string_view boat);

enum class Roughness { fair, caution, stop };
std::string_view name_of(Roughness roughness);

/// gust: as strong as the wind where no gust is known. The stronger of wind and gust is held against the limits of
/// wind, the waves of the steady wind against those of height.
Roughness roughness_of(const Waves& waves, MetresPerSecond wind, MetresPerSecond gust, const RoughLimits& limits);

/// Sustained wind of a lake wind advisory of the US National Weather Service: 25 knots.
inline constexpr MetresPerSecond kLakeWindAdvisory{25 * 1852.0 / 3600.0};
/// Cold water by the definition of the US Coast Guard (46 CFR): 59 F and colder. By the water alone: warm air does not
/// make it safer.
inline constexpr Celsius kColdWater = fahrenheit(59);

}  // namespace castplan
