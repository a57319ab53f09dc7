// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "castplan/geo/quantity_text.hpp"
#include "castplan/geo/shape.hpp"
#include "castplan/grid/lake.hpp"
#include "castplan/grid/observations.hpp"
#include "castplan/season/roughness.hpp"
#include "castplan/spots/spot.hpp"
#include "castplan/terrain/fetch.hpp"

namespace castplan {

struct SpotOptions {
  int most = 10;  ///< spots a phase
  Metres cast_from = Metres(12);
  Metres cast_to = Metres(25);
  Metres draft = Metres(0.45);
  Metres margin = Metres(0.6);                ///< below the keel, before the depth error
  Metres boat_depth_wanted = Metres(1.2);     ///< for a figure-eight at the boat, where it can be had
  Metres reach = Metres(7);                   ///< deepest water that a lure is cast for
  Units units = Units::metric;                ///< for the words, not the numbers
  Metres weed_error = Metres(0);              ///< of the depth at which plants end; 0 where they were mapped
  std::uint64_t seed = 1;                     ///< of the draws that the rank intervals come from
  Polygons keep_out;                          ///< water where no boat is put and nothing cast, beside closures
  bool motor = true;                          ///< the boat can hold against the wind; else it anchors or drifts
  std::optional<Wind> wind{};                 ///< none: not known
  RoughLimits rough = rough_limits("motor");  ///< of the boat: nothing is put where a known wind goes beyond them
  /// Open water of the lake for the wind; made where none is given. Give it when several phases are ranked.
  std::shared_ptr<const WindFetch> fetch{};
  /// What fish that hang in open water go by: given only for a lake that is layered on the day, and only where such
  /// fish may be disturbed (no caution, no stop).
  struct OpenWater {
    Metres thermocline;  ///< least depth that it may lie at
    Metres secchi;
  };
  std::optional<OpenWater> open_water{};
};

/// Ranks places to cast for one phase. features: all that were found and mapped. Steps: targets every 10 m along what
/// can be cast at, each moved along its slope to the depth that suits the phase best; a score from the target's
/// surroundings; then, from the best target down, the middle of the best part of its edge, a boat place that floats,
/// lies outside closures and hazards and reaches the target with a cast over water alone; spots keep their distance
/// from each other, at most two an edge; of the first ten, where there is a choice, at most four lie in one ninth of
/// the lake's extent and five on one kind of edge. A phase that is not fishable gives none. Deterministic:
/// suitabilities and weights are rounded to 1e-4 before the score is formed, scores to 1e-6 before sorting, ties go by
/// place (north first, then west). Intervals of the rank: see `Spot::rank_low`; from seeded draws among the thirty
/// leading places.
///
/// Passes: lanes of 60 to 300 m along drop-offs, outside edges of weeds and rims of humps, on their deep side, at one
/// distance from the edge that a cast reaches over; at least 10 m from the shore and from dangers, outside closures, in
/// water that floats the boat and holds a figure-eight all along. Worked into the wind; where none is known, or it
/// blows square across, from the end with the better half, of equals from the north. Means over the places fished give
/// value and suitability of each factor. A lane most of whose places a better lane passes too is left out.
PhaseSpots rank_spots(const Lake& lake, const std::vector<Feature>& features, const Phase& phase,
                      const SpotOptions& options);

/// What the places of some spots are worth on another survey of their lake: the scores by that survey's depths and
/// features, in order; 0 where they leave no water or nothing to cast at within 20 m.
std::vector<double> worth_of(std::span<const Spot> spots, const Lake& lake, const std::vector<Feature>& features,
                             const Phase& phase, const SpotOptions& options);

/// One place may serve in several phases of a plan: equal ids get -2, -3 ... by depth, shallowest first, then in the
/// order of the phases; passes the same. Call it once, with all phases.
void number_equal_ids(std::vector<PhaseSpots>& phases);

/// Least distance between two spots: 75 m in waters under 40 ha, else 150 m. Design choice.
Metres spot_spacing(SquareMetres lake_area);

}  // namespace castplan
