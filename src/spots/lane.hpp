// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

#include "castplan/spots/spot.hpp"
#include "spots/passes.hpp"

namespace castplan {

/// How a lane is to be laid past an edge.
struct LaneWish {
  bool outward = false;   ///< cast away from the edge, over open water; else at the targets
  Metres least_floor{0};  ///< of the water that is cast over, where outward
};

/// A cast from a lane.
struct LaneCast {
  const Target* target;
  Metres along;  ///< from the lane's start
  Metres cast;   ///< with what it goes past the target
  Metres room;   ///< for a lure between the target and the boat: over the floor and plants,
  Metres floor;  ///< and over the floor alone
};

/// A way for the boat past some targets. Its places are those that will be printed.
struct Lane {
  Line way;
  Side side{};  ///< of the way, where the casts go
  std::vector<LaneCast> casts;
  std::pair<Metres, Metres> depth;  ///< least and most under it
};

inline constexpr Metres kShortestLane(60);

/// Lanes past a stretch of one edge, on its deep side, in the direction of the stretch, at one distance from the edge:
/// such that a cast of middle length goes past the median target, within what the range of casts allows. A lane ends
/// where the boat cannot go on, comes upon another part of the edge or cannot cast at a target; pieces under 60 m are
/// left out.
std::vector<Lane> lanes_past(std::span<const Target> stretch, const PassGround& ground, const LaneWish& wish);

/// Of each factor the mean over the places that are fished: of the suitability, and of the value in the unit that most
/// of them have.
std::vector<Reason> mean_why(const Lane& lane);

/// The same lane the other way.
Lane reversed(Lane lane);

}  // namespace castplan
