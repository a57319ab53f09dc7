// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/weed_density.hpp"

#include <algorithm>

namespace castplan {

double weed_density_at(double slope_pct) {
  return std::clamp((kSteepToWeeds - slope_pct) / (kSteepToWeeds - kGentleToWeeds), 0.0, 1.0);
}

}  // namespace castplan
