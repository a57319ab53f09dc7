// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <string_view>

#include "castplan/spots/spot.hpp"

namespace castplan {

/// How soon to fish a spot, for people.
enum class Tier { start_here, next, if_time };
std::string_view name_of(Tier tier);  ///< "start here", "next", "if time"

/// By the rank among `count` spots of the phase and its 90 % interval: start here is the first, and those of the first
/// third whose interval ends within two thirds; if time is for those of the last third whose interval begins below the
/// first third; next are all others. Design choice.
Tier tier_of(const Spot& spot, std::size_t count);

/// The rule in one sentence, for people.
std::string_view tier_words();

}  // namespace castplan
