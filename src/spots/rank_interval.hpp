// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "spots/doubt.hpp"

namespace castplan {

/// What the order of some targets is worth when depths, weed edge and weights are varied within their errors.
struct RankInterval {
  int low{}, high{};  ///< of the rank among all: the narrowest interval with 90 % of the draws, and the rank itself
  double ahead{};     ///< chance of a better score than the next one's; 1 for the last
  double by_depth{};  ///< how much the interval is owed to the depth here, in ranks: sounding it would narrow it
};

struct RankDraws {
  std::uint64_t seed = 1;
  int count = 600;
  Metres weed_error;  ///< of the depth at which plants end, the same on the whole lake; 0 where they were mapped
};

/// leading: best first. Each draw shifts the depths at the targets (normal, correlated as exp(-distance / 25 m)), the
/// survey's other errors, the level of the water (0.1 m), the depth of the weed edge, and the weights (by a factor
/// exp(0.15 z)), and ranks the scores that follow. Features are not found again. Deterministic for a seed.
/// Sizes are design choices; coverage is tested on simulated surveys.
std::vector<RankInterval> rank_intervals(std::span<const TargetDoubt> leading, const RankDraws& draws);

}  // namespace castplan
