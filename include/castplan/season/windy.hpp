// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/season/profile.hpp"

namespace castplan {

/// The phase on a day whose wind is known: the waves at the target become a factor, with the profile's own weight, and
/// the other weights share what it leaves. The same for a phase without a curve for waves.
Phase for_wind(const Phase& phase);

}  // namespace castplan
