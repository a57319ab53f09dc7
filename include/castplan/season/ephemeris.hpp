// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/coordinate.hpp"
#include "castplan/season/sky.hpp"

namespace castplan {

/// A direction from the centre of the earth, degrees of the true equator and equinox of the day, and how large the
/// body and its parallax look.
struct SkyPosition {
  double longitude{};  ///< ecliptic, [0, 360)
  double latitude{};   ///< ecliptic
  double ascension{};  ///< right ascension, [0, 360)
  double declination{};
  double distance_km{};
};

/// Julian ephemeris centuries from 2000, and Julian day of universal time.
double centuries(Instant at);
double julian_day(Instant at);

/// To 0.01 degrees. Meeus (1998), Astronomical Algorithms, ch. 25, lower accuracy.
SkyPosition sun_position(double centuries_from_2000);
/// To about 10 seconds of arc. Meeus, ch. 47: the leading terms of the lunar theory ELP-2000/82.
SkyPosition moon_position(double centuries_from_2000);

/// Apparent sidereal time at Greenwich, degrees, [0, 360). Meeus, ch. 12.
double sidereal_time(double julian_day_ut);

/// Height of a direction above the horizon of a place, degrees, as seen from the centre of the earth, without
/// refraction.
double altitude(const SkyPosition& position, LonLat place, Instant at);

}  // namespace castplan
