// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/windy.hpp"

namespace castplan {

Phase for_wind(const Phase& phase) {
  Phase out = phase;
  if (phase.waves.points.empty() || phase.weights.empty()) return out;
  for (auto& [factor, weight] : out.weights) weight.value *= 1 - phase.waves_weight;
  out.weights.push_back({Factor::waves, {phase.waves_weight, phase.waves.source}});
  return out;
}

}  // namespace castplan
