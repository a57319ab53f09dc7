// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/waves.hpp"

#include <cmath>
#include <numbers>

namespace castplan {

namespace {

constexpr double kGravity = 9.81;  // m/s2

}  // namespace

MetresPerSecond adjusted_wind(MetresPerSecond wind) { return MetresPerSecond(0.71 * std::pow(wind.value(), 1.23)); }

Waves waves_of(MetresPerSecond wind, Metres fetch, Metres depth) {
  if (!(wind.value() > 0 && fetch.value() > 0 && depth.value() > 0)) return {};
  const double adjusted = adjusted_wind(wind).value();
  const double far = kGravity * fetch.value() / (adjusted * adjusted);
  const double deep = kGravity * depth.value() / (adjusted * adjusted);
  const double by_height = std::tanh(0.530 * std::pow(deep, 0.75));
  const double by_period = std::tanh(0.833 * std::pow(deep, 0.375));
  return {Metres(0.283 * by_height * std::tanh(0.00565 * std::sqrt(far) / by_height) * adjusted * adjusted / kGravity),
          7.54 * by_period * std::tanh(0.0379 * std::cbrt(far) / by_period) * adjusted / kGravity};
}

Metres wave_base(double period) { return Metres(kGravity * period * period / (4 * std::numbers::pi)); }

}  // namespace castplan
