// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <vector>

#include "castplan/geo/planar.hpp"
#include "spots/target.hpp"

namespace castplan {

/// Where the boat lies and where the cast lands for one target.
struct BoatPlace {
  XY boat;
  XY landing;
  Metres boat_depth;
  Metres cast;
  Metres to_target;  ///< from the boat
};

/// Knows where a boat may lie and a cast may fly on one lake.
class BoatFinder {
 public:
  BoatFinder(const Lake& lake, const std::vector<Feature>& features, const SpotOptions& options);
  /// The best place to cast at a target from, or nothing when none is safe and allowed. Looks in 24 directions and at
  /// three lengths of cast. Preferred: the deep side looking in, water for a figure-eight at the boat, a cast of middle
  /// length. The cast lands 3 to 6 m past the target and flies over water alone.
  [[nodiscard]] std::optional<BoatPlace> best(const Target& target) const;

 private:
  [[nodiscard]] bool may_float(XY place, float depth) const;
  [[nodiscard]] bool may_cast(XY boat, XY landing) const;
  const Lake& lake_;
  SpotOptions options_;
  Metres floats_;
  PreparedShape water_;
  PreparedShape shores_;
  PreparedShape closed_;  ///< no entry, no fishing, and what the options keep out of
  PreparedShape dangers_;
  bool any_closed_, any_danger_;
};

}  // namespace castplan
