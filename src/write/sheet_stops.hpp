// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "castplan/write/plan.hpp"
#include "write/depth_picture.hpp"

namespace castplan::sheet {

/// A spot as the sheet has it.
struct Stop {
  const Spot* spot{};
  std::string label;  ///< the number that the page shows
  std::string part;   ///< of the lake: NW, N, NE, W, mid...
};

/// Stops besides the alternates, where the page has room for them.
constexpr std::size_t kMostStops = 8;

/// What is gone to, in which order.
struct Stops {
  std::vector<Stop> stops;       ///< at most kMostStops, in running order
  std::vector<Stop> alternates;  ///< at most 2, in the order of their rank
  std::vector<double> fetches;   ///< metres of open water that the wind has before each alternate
  std::size_t spots{};           ///< of the phase; those that are not here stand on the page
  const Feature* launch{};       ///< where the order begins; none: no launch is known, or all are dry
  bool launches_dry = false;
  double crossing{};  ///< longest stretch over 100 m from land on the way, metres; 0: none
  std::string crossing_from, crossing_to;
};

/// Stops of the one phase that is planned; none at a stop, and where several phases are planned. The four best spots
/// are always stops; of the others those two with the least water before them for the wind to work on are kept for a
/// day when it blows: the effective fetch for the wind of the plan, else the greatest over all directions. Of the rest
/// the best fill what is left of the most that may be.
Stops chosen_stops(const Plan& plan, std::size_t most = kMostStops);

/// Name of the third of the view, by row and column, that holds a place: NW, N, NE, W, mid, E, SW, S, SE.
std::string lake_part(const MapView& view, XY at);

}  // namespace castplan::sheet
