// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/quantity.hpp"

namespace castplan {

/// Wind stress factor UA = 0.71 U^1.23, m/s; U: wind at 10 m. Source: US Army Corps of Engineers (1984), Shore
/// Protection Manual, as used by equations 3-39 and 3-40.
MetresPerSecond adjusted_wind(MetresPerSecond wind);

/// Waves that a steady wind raises.
struct Waves {
  Metres height;    ///< significant
  double period{};  ///< seconds
};

/// By equations 3-39 and 3-40 of the Shore Protection Manual (1984), for water of one depth along the whole fetch.
/// wind: at 10 m. Zero waves without wind, fetch or depth. Other published models differ by a third in height.
Waves waves_of(MetresPerSecond wind, Metres fetch, Metres depth);

/// Depth to which waves stir the water: half their length in deep water, g T^2 / (4 pi). Linear wave theory.
Metres wave_base(double period);

}  // namespace castplan
