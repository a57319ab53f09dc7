// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>

#include "castplan/geo/quantity.hpp"

namespace castplan {

struct SecondUnit;
using Seconds = Quantity<SecondUnit>;

/// Radials of the effective fetch: 15, 6 degrees apart, from 42 degrees left of the way that the wind comes from to 42
/// degrees right of it.
inline constexpr int kFetchRadials = 15;
inline constexpr Degrees kFetchSpacing{6};

/// Directions to look along from a place, true bearings, for wind from a direction (upwind, not downwind).
std::array<Degrees, kFetchRadials> fetch_bearings(Degrees wind_from);

/// Length of water that the wind works on, from the lengths of the 15 radials in their order: sum(F cos a) / sum(cos
/// a). Each ends at the first shore, islands included. Throws InputError for any other number of lengths and for
/// negative or unknown ones. Source: Shore Protection Manual, as in Rogala (1997), USGS UMESC Project Status Report
/// 97-08.
Metres effective_fetch(std::span<const Metres> radials);

/// Height of the higher third of the waves, and their period.
struct Waves {
  Metres height;
  Seconds period;
};

/// Waves of a steady wind over a fetch of even depth. wind: m/s at 10 m; all three 0 or more, else InputError; 0 where
/// one of them is 0. Published models differ by a third in height for the same wind: show one decimal.
/// Source: US Army Corps of Engineers (1984), Shore Protection Manual, eq. 3-39 and 3-40, as restated in open-source
/// codes; wind factor 0.71 U^1.23.
Waves shallow_waves(MetresPerSecond wind, Metres fetch, Metres depth);

MetresPerSecond adjusted_wind(MetresPerSecond wind);  ///< 0.71 U^1.23

/// Length of waves of a period in deep water, g T^2 / (2 pi), and over a depth, by the dispersion relation of linear
/// waves. They reach down to half their length.
Metres wave_length(Seconds period);
Metres wave_length(Seconds period, Metres depth);

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

/// The other models, for tests and for those who compare; none decides anything here.
Metres projected_fetch(std::span<const Metres> radials);   ///< sum(F cos^2 a) / sum(cos a), Saville et al. (1962)
Metres mean_fetch(std::span<const Metres> radials);        ///< plain mean, nine radials: from memory, USACE (1984)
Waves spm_deep_waves(MetresPerSecond wind, Metres fetch);  ///< Shore Protection Manual (1984), deep water
Waves smb_waves(MetresPerSecond wind, Metres fetch);       ///< Bretschneider / USACE (1977), deep water
Waves smb_waves(MetresPerSecond wind, Metres fetch, Metres depth);
Waves cem_waves(MetresPerSecond wind, Metres fetch);  ///< Resio et al. (2003), Coastal Engineering Manual II-2
Seconds cem_longest_period(Metres depth);             ///< 9.78 sqrt(d / g), the same
Metres highest_wave(Metres fetch);                    ///< 0.332 sqrt(F km), textbook form

}  // namespace castplan
