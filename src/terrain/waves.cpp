// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/waves.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

constexpr double kGravity = 9.81;

void check(MetresPerSecond wind, Metres fetch, Metres depth) {
  for (const double value : {wind.value(), fetch.value(), depth.value()}) {
    if (value >= 0 && std::isfinite(value)) continue;
    throw InputError(fmt::format("waves: wind {:g} m/s, fetch {:g} m, depth {:g} m: each must be 0 or more",
                                 wind.value(), fetch.value(), depth.value()));
  }
}

// The form that the shallow formulas share: what depth alone allows times what fetch makes of it.
double limited(double by_depth, double by_fetch) {
  const double most = std::tanh(by_depth);
  return most * std::tanh(by_fetch / most);
}

}  // namespace

MetresPerSecond adjusted_wind(MetresPerSecond wind) { return MetresPerSecond(0.71 * std::pow(wind.value(), 1.23)); }

Waves shallow_waves(MetresPerSecond wind, Metres fetch, Metres depth) {
  check(wind, fetch, depth);
  if (wind.value() == 0 || fetch.value() == 0 || depth.value() == 0) return {};
  const double u = adjusted_wind(wind).value();
  const double x = kGravity * fetch.value() / (u * u);
  const double y = kGravity * depth.value() / (u * u);
  const double height = 0.283 * limited(0.530 * std::pow(y, 0.75), 0.00565 * std::sqrt(x));
  const double period = 7.54 * limited(0.833 * std::pow(y, 0.375), 0.0379 * std::cbrt(x));
  return {Metres(height * u * u / kGravity), Seconds(period * u / kGravity)};
}

Metres wave_length(Seconds period) {
  return Metres(kGravity * period.value() * period.value() / (2 * std::numbers::pi));
}

Metres wave_base(Seconds period) { return wave_length(period) * 0.5; }

// Newton's method on L = L0 tanh(2 pi d / L), written for the wave number: converges from the deep side.
Metres wave_length(Seconds period, Metres depth) {
  if (!(period.value() > 0) || !(depth.value() > 0)) return Metres(0);
  const double squared = std::pow(2 * std::numbers::pi / period.value(), 2) / kGravity;
  double k = std::max(squared, std::sqrt(squared / depth.value()));
  for (int i = 0; i < 50; ++i) {
    const double t = std::tanh(k * depth.value());
    const double step = (k * t - squared) / (t + k * depth.value() * (1 - t * t));
    k -= step;
    if (std::abs(step) <= 1e-14 * k) break;
  }
  return Metres(2 * std::numbers::pi / k);
}

Waves spm_deep_waves(MetresPerSecond wind, Metres fetch) {
  const double u = adjusted_wind(wind).value();
  const double x = kGravity * fetch.value() / (u * u);
  return {Metres(std::min(0.2433, 1.6e-3 * std::sqrt(x)) * u * u / kGravity),
          Seconds(std::min(8.134, 0.2857 * std::cbrt(x)) * u / kGravity)};
}

Waves smb_waves(MetresPerSecond wind, Metres fetch) {
  const double u = wind.value();
  const double x = kGravity * fetch.value() / (u * u);
  return {Metres(0.283 * std::tanh(0.0125 * std::pow(x, 0.42)) * u * u / kGravity),
          Seconds(7.54 * std::tanh(0.077 * std::pow(x, 0.25)) * u / kGravity)};
}

Waves smb_waves(MetresPerSecond wind, Metres fetch, Metres depth) {
  const double u = wind.value();
  const double x = kGravity * fetch.value() / (u * u);
  const double y = kGravity * depth.value() / (u * u);
  const double height = 0.283 * limited(0.530 * std::pow(y, 0.75), 0.0125 * std::pow(x, 0.42));
  const double period = 7.54 * limited(0.833 * std::pow(y, 0.375), 0.077 * std::pow(x, 0.25));
  return {Metres(height * u * u / kGravity), Seconds(period * u / kGravity)};
}

Waves cem_waves(MetresPerSecond wind, Metres fetch) {
  const double speed = wind.value();
  const double friction = std::sqrt(0.001 * (1.1 + 0.035 * speed)) * speed;
  const double x = kGravity * fetch.value() / (friction * friction);
  return {Metres(std::min(211.5, 0.0413 * std::sqrt(x)) * friction * friction / kGravity),
          Seconds(std::min(239.8, 0.651 * std::cbrt(x)) * friction / kGravity)};
}

Seconds cem_longest_period(Metres depth) { return Seconds(9.78 * std::sqrt(depth.value() / kGravity)); }

Metres highest_wave(Metres fetch) { return Metres(0.332 * std::sqrt(fetch.value() / 1000.0)); }

}  // namespace castplan
