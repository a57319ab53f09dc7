// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/ephemeris.hpp"

#include <cmath>
#include <numbers>

#include "season/sky_angles.hpp"

namespace castplan {
namespace {

constexpr double kAstronomicalUnitKm = 149597870.7;

// Terrestrial less universal time, seconds: the polynomial of Espenak & Meeus for 2005 to 2050 (from memory). Ten
// seconds more or less move the moon by five seconds of arc.
double clock_difference(double julian_day_ut) {
  const double years = (julian_day_ut - 2451545.0) / 365.25;
  return 62.92 + 0.32217 * years + 0.005589 * years * years;
}

}  // namespace

double julian_day(Instant at) { return static_cast<double>(at.time_since_epoch().count()) / 86400.0 + 2440587.5; }

double centuries(Instant at) {
  const double day = julian_day(at);
  return (day + clock_difference(day) / 86400.0 - 2451545.0) / 36525.0;
}

Nutation nutation(double t) {
  const double node = 125.04452 - 1934.136261 * t;
  const double sun = 280.4665 + 36000.7698 * t;
  const double moon = 218.3165 + 481267.8813 * t;
  return {(-17.20 * sine(node) - 1.32 * sine(2 * sun) - 0.23 * sine(2 * moon) + 0.21 * sine(2 * node)) / 3600.0,
          (9.20 * cosine(node) + 0.57 * cosine(2 * sun) + 0.10 * cosine(2 * moon) - 0.09 * cosine(2 * node)) / 3600.0};
}

double true_obliquity(double t) {
  return 23.4392911 - t * (0.0130041667 + t * (1.639e-7 - t * 5.036e-7)) + nutation(t).obliquity;
}

void set_equatorial(SkyPosition& at, double obliquity) {
  const double x = cosine(at.latitude) * cosine(at.longitude);
  const double y = cosine(at.latitude) * sine(at.longitude);
  const double z = sine(at.latitude);
  at.ascension = wrapped(degrees(std::atan2(y * cosine(obliquity) - z * sine(obliquity), x)));
  at.declination = degrees(std::asin(y * sine(obliquity) + z * cosine(obliquity)));
}

SkyPosition sun_position(double t) {
  const double mean = 280.46646 + t * (36000.76983 + 0.0003032 * t);
  const double anomaly = 357.52911 + t * (35999.05029 - 0.0001537 * t);
  const double eccentricity = 0.016708634 - t * (0.000042037 + 0.0000001267 * t);
  const double centre = (1.914602 - t * (0.004817 + 0.000014 * t)) * sine(anomaly) +
                        (0.019993 - 0.000101 * t) * sine(2 * anomaly) + 0.000289 * sine(3 * anomaly);
  SkyPosition sun;
  // nutation and aberration
  sun.longitude = wrapped(mean + centre - 0.00569 - 0.00478 * sine(125.04 - 1934.136 * t));
  sun.distance_km = kAstronomicalUnitKm * 1.000001018 * (1 - eccentricity * eccentricity) /
                    (1 + eccentricity * cosine(anomaly + centre));
  set_equatorial(sun, true_obliquity(t));
  return sun;
}

double sidereal_time(double day) {
  const double t = (day - 2451545.0) / 36525.0;
  const double mean = 280.46061837 + 360.98564736629 * (day - 2451545.0) + t * t * (0.000387933 - t / 38710000.0);
  return wrapped(mean + nutation(t).longitude * cosine(true_obliquity(t)));
}

double altitude(const SkyPosition& position, LonLat place, Instant at) {
  const double hour_angle = sidereal_time(julian_day(at)) + place.lon.degrees - position.ascension;
  return degrees(std::asin(sine(place.lat.degrees) * sine(position.declination) +
                           cosine(place.lat.degrees) * cosine(position.declination) * cosine(hour_angle)));
}

}  // namespace castplan
