// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "features/weed_places.hpp"

namespace castplan {

/// A stretch of an edge that is drawn in one line, with the bare stretches in it and at its ends.
struct WeedRun {
  std::vector<WeedPlace> places;  ///< a closed run ends with its first place
  std::vector<WeedGap> gaps;
};

/// Cuts places along a contour into runs. Bare stretches shorter than `weed_gap`, and all that are bare for steepness
/// alone, stay in their run; what stands between gaps and is shorter than `weed_length` is left out and belongs to
/// them. In the order along the contour.
std::vector<WeedRun> weed_runs(std::vector<WeedPlace> places, bool closed, const DetectOptions& options);

/// A run broken at its corners, and what is longer than `longest` in parts of equal length; each keeps the gaps that
/// lie on it or end at it. step: between its places.
std::vector<WeedRun> cut_run(const WeedRun& run, Metres step, Metres longest);

Line line_of(const std::vector<WeedPlace>& places);

}  // namespace castplan
