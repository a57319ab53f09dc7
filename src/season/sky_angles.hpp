// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cmath>
#include <numbers>

#include "castplan/season/ephemeris.hpp"

namespace castplan {

// degrees in, degrees out
inline double sine(double angle) { return std::sin(angle * std::numbers::pi / 180.0); }
inline double cosine(double angle) { return std::cos(angle * std::numbers::pi / 180.0); }
inline double degrees(double radians) { return radians * 180.0 / std::numbers::pi; }
inline double wrapped(double angle) {
  const double rest = std::fmod(angle, 360.0);
  return rest < 0 ? rest + 360.0 : rest;
}

/// Nutation in longitude and in obliquity, degrees, to half a second of arc. Meeus, ch. 22.
struct Nutation {
  double longitude, obliquity;
};
Nutation nutation(double centuries_from_2000);
double true_obliquity(double centuries_from_2000);

/// Fills right ascension and declination from the ecliptic longitude and latitude.
void set_equatorial(SkyPosition& at, double obliquity);

}  // namespace castplan
