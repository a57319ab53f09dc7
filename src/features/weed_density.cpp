// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/weed_density.hpp"

#include <algorithm>

namespace castplan {

double weed_density_at(double slope_pct) {
  constexpr double kGentle = 5.0;
  constexpr double kSteep = 20.0;
  return std::clamp((kSteep - slope_pct) / (kSteep - kGentle), 0.0, 1.0);
}

}  // namespace castplan
