// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>

#include "castplan/season/profile.hpp"

namespace castplan {

/// What published catch rates say of a day on the water. Of anglers at large, never of a lake, a day or a spot.
struct Odds {
  double hours;                ///< of casting, by one angler
  double rate;                 ///< fish an angler-hour: of the survey with most hours among those that count every fish
  double rate_low, rate_high;  ///< of all surveys
  std::string words;           ///< "6 hours: about 1 in 6"
};

/// Hours of casting in a day on the water that odds are given for. Design choice.
inline constexpr double kDayOfCasting = 6;

/// Chance of at least one fish: 1 - exp(-rate x hours), as of a Poisson process: catches as scattered as chance makes
/// them. rate: fish an hour, 0 or more.
double chance_of_fish(double rate, double hours);

/// Hours until the chance of at least one fish is even: ln 2 / rate. rate: more than 0.
double hours_for_even_chance(double rate);

/// "1 in 6", "2 in 3": the nearest of a few plain fractions (by ratio), so that no more is said than is known; "less
/// than 1 in 100", "more than 9 in 10". chance: more than 0, up to 1.
std::string chance_words(double chance);

/// Nothing where the profile has no published catch rate.
std::optional<Odds> odds_of(const Profile& profile, double hours = kDayOfCasting);

/// The same in sentences for people, with the range between surveys, whose catches they are, and the sources; where the
/// profile has no catch rate, that none is known.
std::string odds_text(const Profile& profile, double hours = kDayOfCasting);

/// The same in one line, for paper: "one muskellunge or more, one angler, 6 hours: about 1 in 6 (...; source)".
std::string odds_line(const Profile& profile, double hours = kDayOfCasting);

}  // namespace castplan
