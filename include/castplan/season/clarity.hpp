// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string_view>
#include <utility>

#include "castplan/season/profile.hpp"

namespace castplan {

/// Stained: a Secchi depth under 1 m; clear: over 4 m; else, or where it is not known, usual. The limits are a design
/// choice.
enum class Clarity { usual, stained, clear };
Clarity clarity_of(std::optional<Metres> secchi);
std::string_view name_of(Clarity clarity);

/// How fast light is lost, in 1/m: 1.44 / Secchi depth in stained water (Holmes 1970), else 1.7 / Secchi depth (Poole &
/// Atkins 1929). Throws InputError unless secchi > 0.
double light_lost(Metres secchi);

/// The phase as water of this clarity changes it; the same for usual water. All design choices, as no study gives
/// numbers: in stained water fish lie shallower (three quarters of the depth), closer to edges and cover, and want what
/// light there is; in clear water they lie deeper (five quarters), deep water near by counts more, and bright water is
/// shunned. The light at the target becomes a factor of its own. Weights still sum to 1, and the sources say so.
Phase for_clarity(const Phase& phase, std::optional<Metres> secchi);

/// Shortest and longest cast: 10 to 18 m in stained water, 18 to 32 m in clear water (common practice, no source); none
/// for usual water, where the options' own hold.
std::optional<std::pair<Metres, Metres>> casts_in(Clarity clarity);

}  // namespace castplan
