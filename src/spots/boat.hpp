// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <optional>
#include <vector>

#include "castplan/geo/planar.hpp"
#include "spots/drift.hpp"
#include "spots/target.hpp"

namespace castplan {

inline constexpr Metres kPast(4.5);           ///< a cast lands so far past its target: the lure is down when it passes
inline constexpr float kLandingDepth = 0.3F;  ///< a lure that lands in less lies on the shore
inline constexpr Metres kFromDanger(10);

/// Where the boat lies and where the cast lands for one target.
struct BoatPlace {
  XY boat;
  XY landing;
  Metres boat_depth;
  Metres cast;
  Metres to_target;                   ///< from the boat
  std::optional<Grounding> adrift{};  ///< what the wind sets the boat onto within ten minutes; none: nothing, no wind
};

/// Knows where a boat may lie and a cast may fly on one lake.
class BoatFinder {
 public:
  BoatFinder(const Lake& lake, const std::vector<Feature>& features, const Surroundings& surroundings,
             const SpotOptions& options);
  /// The best place to cast at a target from, or nothing when none is safe and allowed. Looks in 24 directions and at
  /// three lengths of cast. Preferred: the deep side looking in, water for a figure-eight 3.5 m about the boat, a
  /// retrieve that nothing rises into, edges and kinds within a fan of casts, a cast of middle length, and a place from
  /// which the wind sets a boat without its engine onto nothing within ten minutes. All are factors, none a ban. The
  /// cast lands 3 to 6 m past the target and flies over water alone.
  [[nodiscard]] std::optional<BoatPlace> best(const Target& target) const;

  /// The boat floats on this depth there, outside closures and away from dangers.
  [[nodiscard]] bool may_float(XY place, float depth) const;
  /// The cast flies over known water alone, and over no closure.
  [[nodiscard]] bool may_cast(XY boat, XY landing) const;
  /// The way meets no shore, no closure and no room about a danger. Exact.
  [[nodiscard]] bool is_clear(const Line& way) const;
  [[nodiscard]] Metres from_shore(XY place) const { return shores_.distance_to(place); }
  /// Least water over the floor, and over the tops of plants, along a retrieve: what a lure may run in. Plants stand
  /// where the floor is 0.3 m less deep than their deepest edge and in mapped beds, to half of the water (design
  /// choice: their height is not surveyed).
  [[nodiscard]] Metres room_for_lure(XY boat, XY from) const;
  /// The same over the floor alone.
  [[nodiscard]] Metres floor_between(XY boat, XY target) const;
  [[nodiscard]] const Drift& drift() const { return drift_; }
  [[nodiscard]] Metres floats() const { return floats_; }
  /// Least water that the boat is put on for good: it floats, and a figure-eight finds room.
  [[nodiscard]] Metres wanted_depth() const { return std::max(floats_, options_.boat_depth_wanted); }

 private:
  [[nodiscard]] bool room_for_figure_eight(XY boat) const;
  [[nodiscard]] double preference(const BoatPlace& place, const Target& target) const;
  [[nodiscard]] double worth_of_casts(const BoatPlace& place, const Target& target) const;
  const Lake& lake_;
  const Surroundings& surroundings_;
  SpotOptions options_;
  Metres floats_;
  PreparedShape water_;
  PreparedShape shores_;
  PreparedShape closed_;  ///< no entry, no fishing, and what the options keep out of
  PreparedShape dangers_;
  PreparedShape beds_;
  Metres plants_to_;  ///< deepest outside edge of plants; 0 where none is known
  Drift drift_;
  bool any_closed_, any_danger_;
};

}  // namespace castplan
