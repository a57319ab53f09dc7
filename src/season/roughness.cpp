// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/roughness.hpp"

#include <algorithm>

namespace castplan {

RoughLimits rough_limits(std::string_view boat) {
  if (boat == "motor") return {MetresPerSecond(7.5), MetresPerSecond(10), Metres(0.4), Metres(0.6)};
  if (boat == "kayak") return {MetresPerSecond(6), MetresPerSecond(8), Metres(0.25), Metres(0.4)};
  return {MetresPerSecond(5), MetresPerSecond(7.5), Metres(0.2), Metres(0.3)};
}

std::string_view name_of(Roughness roughness) {
  static constexpr std::string_view kNames[] = {"fair", "caution", "stop"};
  return kNames[static_cast<std::size_t>(roughness)];
}

Roughness roughness_of(const Waves& waves, MetresPerSecond wind, MetresPerSecond gust, const RoughLimits& limits) {
  const MetresPerSecond strongest = std::max(wind, gust);
  if (strongest >= limits.stop_wind || waves.height >= limits.stop_height) return Roughness::stop;
  if (strongest >= limits.caution_wind || waves.height >= limits.caution_height) return Roughness::caution;
  return Roughness::fair;
}

}  // namespace castplan
