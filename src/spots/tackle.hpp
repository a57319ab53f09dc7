// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/spots/rank.hpp"

namespace castplan {

/// Up to three lures of the phase, in its order, that run clear in the room over floor and plants along the retrieve;
/// where none does, those that run clear of the floor.
std::vector<Presentation> presentations(const Phase& phase, Metres room, Metres floor);

/// Casts that cover a spot: six, and two more for each further kind of thing within reach, at most fourteen. Common
/// practice, no source.
int casts_for(std::size_t kinds);

/// Time for a number of casts: 30 s overhead each for a novice with a figure-eight, and the retrieve at 0.8 m/s, or
/// 0.5 m/s in water of 10 C and less. Common practice, no source.
double minutes_for(int casts, Metres cast, bool cold);

/// Water in which a lure is worked slowly: all of the phase lies under about 10 C.
bool is_cold(const Phase& phase);

/// "drop-off, weed line and wood"
std::string kind_words(const std::vector<Kind>& kinds);
/// "; 22 % grade; water 2 m deeper within 8 m": what a person would miss of the reasons.
std::string why_words(const std::vector<Reason>& why, Units units);

/// The reasons of a spot in one plain sentence.
std::string reason_words(const Spot& spot, Units units);

}  // namespace castplan
