// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/factors_of_day.hpp"

#include <fmt/format.h>

namespace castplan {
namespace {

void add_factor(Factor factor, const Curve& curve, double share, Phase& phase) {
  if (curve.points.empty() || phase.weights.empty()) return;
  for (auto& each : phase.weights) each.second.value *= 1 - share;
  phase.weights.push_back({factor, {share, curve.source}});
}

}  // namespace

Phase for_wind(const Phase& phase) {
  Phase out = phase;
  add_factor(Factor::waves, phase.waves, phase.waves_weight, out);
  return out;
}

Phase for_weed_edge(const Phase& phase, Metres edge) {
  Phase out = phase;
  out.weed_edge = edge;
  out.depth_below_weed_edge.source.text += fmt::format("; edge at {:.1f} m", edge.value());
  add_factor(Factor::weed_edge, out.depth_below_weed_edge, phase.weed_edge_weight, out);
  return out;
}

}  // namespace castplan
