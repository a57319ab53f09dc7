// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/sky.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "castplan/season/ephemeris.hpp"
#include "season/sky_angles.hpp"

namespace castplan {
namespace {

using std::chrono::seconds;

constexpr double kRefraction = 34.0 / 60.0;  // at the horizon
constexpr double kSunRadius = 16.0 / 60.0;
constexpr double kCivil = 6.0;
constexpr seconds kStep{300};
constexpr double kEarthRadiusKm = 6378.14;
constexpr double kMoonRadiusShare = 0.272481;  // of the earth's
constexpr double kHalfDayOfElongation = 6.1;   // degrees that the moon gains on the sun in 12 hours

// How far a body stands above the line that counts as its horizon, degrees.
using Height = std::function<double(Instant)>;

struct Crossings {
  std::optional<Instant> rise, set;
  Course course = Course::rises_or_sets;
};

Instant crossing(const Height& height, Instant low, Instant high) {
  const bool up = height(low) >= 0;
  while (high - low > seconds(1)) {
    const Instant middle = low + (high - low) / 2;
    (height(middle) >= 0) == up ? low = middle : high = middle;
  }
  return high;
}

Crossings crossings(const Height& height, Instant from, Instant to) {
  Crossings found;
  bool up = height(from) >= 0;
  for (Instant at = from; at < to;) {
    const Instant next = std::min(at + kStep, to);
    const bool then_up = height(next) >= 0;
    if (then_up && !up && !found.rise) found.rise = crossing(height, at, next);
    if (!then_up && up) found.set = crossing(height, at, next);
    up = then_up;
    at = next;
  }
  if (!found.rise && !found.set) found.course = up ? Course::up_all_day : Course::down_all_day;
  return found;
}

double sun_height(LonLat place, Instant at) { return altitude(sun_position(centuries(at)), place, at); }

// The moon is near: seen from the ground it stands lower by its parallax.
double moon_height(LonLat place, Instant at) {
  const SkyPosition moon = moon_position(centuries(at));
  const double parallax = degrees(std::asin(kEarthRadiusKm / moon.distance_km));
  return altitude(moon, place, at) - (parallax * (1 - kMoonRadiusShare) - kRefraction);
}

MoonPhase phase_at(double elongation) {
  static constexpr MoonPhase kPrincipal[] = {MoonPhase::new_moon, MoonPhase::first_quarter, MoonPhase::full_moon,
                                             MoonPhase::last_quarter};
  static constexpr MoonPhase kBetween[] = {MoonPhase::waxing_crescent, MoonPhase::waxing_gibbous,
                                           MoonPhase::waning_gibbous, MoonPhase::waning_crescent};
  const int nearest = static_cast<int>(std::lround(elongation / 90.0)) % 4;
  if (std::abs(std::remainder(elongation - nearest * 90.0, 360.0)) <= kHalfDayOfElongation) return kPrincipal[nearest];
  return kBetween[static_cast<int>(elongation / 90.0) % 4];
}

}  // namespace

std::string_view name_of(MoonPhase phase) {
  static constexpr std::string_view kNames[] = {"new moon",  "waxing crescent", "first quarter", "waxing gibbous",
                                                "full moon", "waning gibbous",  "last quarter",  "waning crescent"};
  return kNames[static_cast<std::size_t>(phase)];
}

Daylight daylight_between(LonLat place, Instant from, Instant to) {
  const Crossings sun =
      crossings([&](Instant at) { return sun_height(place, at) + kRefraction + kSunRadius; }, from, to);
  const Crossings light = crossings([&](Instant at) { return sun_height(place, at) + kCivil; }, from, to);
  return {light.rise, sun.rise, sun.set, light.set, sun.course, light.course};
}

Moonlight moonlight_between(LonLat place, Instant from, Instant to) {
  const Crossings moon = crossings([&](Instant at) { return moon_height(place, at); }, from, to);
  const double t = centuries(from + (to - from) / 2);
  const SkyPosition sun_then = sun_position(t);
  const SkyPosition moon_then = moon_position(t);
  const double apart = std::acos(cosine(moon_then.latitude) * cosine(moon_then.longitude - sun_then.longitude));
  const double angle = std::atan2(sun_then.distance_km * std::sin(apart),
                                  moon_then.distance_km - sun_then.distance_km * std::cos(apart));
  return {moon.rise, moon.set, moon.course, phase_at(wrapped(moon_then.longitude - sun_then.longitude)),
          (1 + std::cos(angle)) / 2};
}

std::pair<Instant, Instant> mean_solar_day(Date date, Longitude longitude) {
  const seconds shift(std::llround(longitude.degrees * 240.0));  // four minutes a degree
  const Instant from = Instant(std::chrono::sys_days(date)) - shift;
  return {from, from + std::chrono::hours(24)};
}

}  // namespace castplan
