// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

namespace castplan {

/// How much of the plant cover a slope lets stand: 1 up to the gentle limit, linear to 0 at the steep one. Design
/// choice after Duarte & Kalff (1986), Can. J. Fish. Aquat. Sci. 43, whose limits are from memory.
inline constexpr double kGentleToWeeds = 5, kSteepToWeeds = 20;  // per cent
double weed_density_at(double slope_pct);

}  // namespace castplan
