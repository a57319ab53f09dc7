// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cmath>
#include <random>

#include "castplan/terrain/smooth.hpp"

namespace castplan::lakes {

/// Adds Gaussian noise of a standard deviation (metres) to all water; what becomes shallower than 5 cm stays water of
/// 5 cm. White, or correlated over 25 m: white noise under a Gaussian of sigma 12.5 m has the correlation
/// exp(-d^2 / (4 sigma^2)), which is 1/e at 25 m.
inline Grid<Metres32> noisy(Grid<Metres32> values, double spread, bool correlated, unsigned seed) {
  std::mt19937 random(seed);
  std::normal_distribution<float> normal;
  Grid<Metres32> noise(values.frame());
  for (Metres32& cell : noise.cells()) cell = Metres32(normal(random));
  if (correlated) noise = smoothed(noise, Metres(12.5));
  double squares = 0;
  for (const Metres32 cell : noise.cells()) squares += static_cast<double>(cell.value() * cell.value());
  const double scale = spread / std::sqrt(squares / static_cast<double>(noise.size()));
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!(values[i].value() > 0)) continue;
    values[i] = Metres32(std::max(0.05F, values[i].value() + static_cast<float>(scale) * noise[i].value()));
  }
  return values;
}

}  // namespace castplan::lakes
