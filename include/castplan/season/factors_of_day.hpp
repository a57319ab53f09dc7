// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/season/profile.hpp"

namespace castplan {

/// The phase on a day whose wind is known: the waves at the target become a factor, with the profile's own weight, and
/// the other weights share what it leaves. The same for a phase without a curve for waves.
Phase for_wind(const Phase& phase);

/// The same where weeds stand and the depth of their outside edge is known: how far below or above it the target lies
/// becomes a factor beside its depth below the surface.
Phase for_weed_edge(const Phase& phase, Metres edge);

}  // namespace castplan
