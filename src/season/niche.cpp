// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/niche.hpp"

#include <algorithm>
#include <cmath>

namespace castplan {

double thermal_niche(Celsius optimum, Celsius t) {
  constexpr double kCore = 2.0;
  constexpr double kFull = 5.0;
  const double away = std::abs((t - optimum).value());
  return std::clamp((kFull - away) / (kFull - kCore), 0.0, 1.0);
}

}  // namespace castplan
