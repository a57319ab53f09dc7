// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/quantity.hpp"

namespace castplan {

struct SecondUnit;
using Seconds = Quantity<SecondUnit>;

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
/// waves. They reach down to half their length, `wave_base`.
Metres wave_length(Seconds period);
Metres wave_length(Seconds period, Metres depth);
Metres wave_base(Seconds period);  ///< in deep water

/// The other models, for tests and for those who compare; none decides anything here.
Waves spm_deep_waves(MetresPerSecond wind, Metres fetch);  ///< Shore Protection Manual (1984), deep water
Waves smb_waves(MetresPerSecond wind, Metres fetch);       ///< Bretschneider / USACE (1977), deep water
Waves smb_waves(MetresPerSecond wind, Metres fetch, Metres depth);
Waves cem_waves(MetresPerSecond wind, Metres fetch);  ///< Resio et al. (2003), Coastal Engineering Manual II-2
Seconds cem_longest_period(Metres depth);             ///< 9.78 sqrt(d / g), the same
Metres highest_wave(Metres fetch);                    ///< 0.332 sqrt(F km), textbook form

}  // namespace castplan
