// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cmath>

#include "castplan/geo/projection.hpp"

namespace castplan {

/// Rounded to so many decimals, as figures are printed.
inline double to_1(double value) { return std::round(value * 10) / 10; }
inline double to_2(double value) { return std::round(value * 100) / 100; }
inline double to_4(double value) { return std::round(value * 1e4) / 1e4; }

/// Coordinates as they are printed, to 1e-6 degree, so that what is said of them can be checked on the files.
inline LonLat as_printed(const Projection& projection, XY place) {
  const LonLat exact = projection.to_lonlat(place);
  const auto to_6 = [](double degrees) { return std::round(degrees * 1e6) / 1e6; };
  return {{to_6(exact.lon.degrees)}, {to_6(exact.lat.degrees)}};
}

}  // namespace castplan
