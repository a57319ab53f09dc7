// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

namespace castplan {

/// How much of the plant cover a slope lets stand: 1 up to 5 %, linear to 0 at 20 %. Design choice after Duarte &
/// Kalff (1986), Can. J. Fish. Aquat. Sci. 43, whose limits are from memory.
double weed_density_at(double slope_pct);

}  // namespace castplan
