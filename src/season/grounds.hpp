// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/season/profile.hpp"

namespace castplan {

/// Fish come to the ground this long before they spawn: muskellunge at about 5 C for a spawn from 8 C (Miller & Menzel
/// 1986, Dombeck 1979); the same for others is a design choice.
inline constexpr CelsiusStep kBeforeSpawn{3.0};

/// The temperature at which the ground of a species is free again: the profile's own, else 1.4 C beyond the end of the
/// spawn, as 17 C lies beyond 15.6 C (design choice). Requires a phase of the spawn.
Celsius ground_opens(const Profile& profile, const Phase& spawn);

}  // namespace castplan
