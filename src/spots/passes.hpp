// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

#include "spots/boat.hpp"
#include "spots/shelter.hpp"

namespace castplan {

/// What passes of a phase are found with.
struct PassGround {
  const Lake& lake;
  const std::vector<Feature>& features;
  const Surroundings& surroundings;
  const Phase& phase;
  const SpotOptions& options;
  const BoatFinder& boats;
  const Weather& weather;
};

/// A part of an edge without a gap, and what it may be worth.
struct Stretch {
  std::span<const Target> places;
  double worth;  ///< mean score
};

/// Passes by rank, at most as many as spots are asked for, and up to two over open water besides. judged: in the order
/// in which `targets` gives them, scored.
std::vector<Pass> find_passes(std::span<const Target> judged, const PassGround& ground);

/// Past weed edges and humps, cast away from them over water deeper than the thermocline, for fish that hang above it;
/// none unless the options say what open water needs. At most two. stretches: best first. Not yet ranked.
std::vector<Pass> open_water_passes(std::span<const Stretch> stretches, const PassGround& ground);

/// A pass from its lane, turned into its direction, all but its rank.
struct Lane;
Pass make_pass(Lane lane, const PassGround& ground);

}  // namespace castplan
