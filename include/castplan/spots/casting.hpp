// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/quantity.hpp"
#include "castplan/terrain/waves.hpp"

namespace castplan {

/// Common practice, no source: retrieves, the slower one in water of 10 C and less, and what a novice needs beside it.
inline constexpr MetresPerSecond kRetrieve{0.8}, kRetrieveCold{0.5};
inline constexpr Seconds kNoviceOverhead{30};

/// From one cast to the next: the retrieve of a lure over a distance, and all else (cast, figure-eight, weeds picked
/// off). Plain geometry. speed: more than 0.
Seconds cast_time(Metres distance, MetresPerSecond speed, Seconds overhead);
double casts_per_hour(Seconds each);

/// How far a boat that drifts, or is moved, at a speed gets from one cast to the next.
Metres drift_between_casts(MetresPerSecond boat, Seconds each);

/// Water that a fan of casts passes: a sector between two radii. angle: of the whole fan.
SquareMetres fan_area(Metres inner, Metres outer, Degrees angle);

}  // namespace castplan
