// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>

#include "castplan/features/detect.hpp"

namespace castplan {

/// The floor along a line straight down the slope, through one place of a break.
struct BreakProfile {
  Metres top_depth;         ///< where it bends most, convex
  Metres base_depth;        ///< where it bends most, concave
  Metres top_at;            ///< level distance from the place down the slope, negative up it
  Metres base_at;           ///< the same
  Metres relief_in_window;  ///< greatest fall within the window around the place
  Metres relief_in_water;   ///< from the first water beside the shore, or the top where it lies further out

  [[nodiscard]] Metres relief() const { return base_depth - top_depth; }
  [[nodiscard]] double grade_pct() const { return 100 * (relief() / (base_at - top_at)); }
};

/// Reads the unsmoothed depths along a direction (a unit vector pointing to deeper water). Nothing when the place has
/// no known depth or the floor does not fall there. noisy: the mean with a line on each side, a cell away, is read
/// instead, and slopes and bends over twice as much; more lines would see round a curved edge.
std::optional<BreakProfile> break_profile(const Lake& lake, XY place, XY downslope, Metres window, bool noisy);

}  // namespace castplan
