// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "castplan/features/detect.hpp"
#include "features/shore_ring.hpp"

namespace castplan {

/// A part of the water behind a chord between two places of its shore.
struct Pocket {
  double from;   ///< along the ring, metres
  double to;     ///< along the ring, after `from`
  double chord;  ///< width of the mouth, metres, without islands in it
  double area;   ///< square metres, islands included

  /// How much larger it is than half a circle on its mouth.
  [[nodiscard]] double beyond_half_circle() const { return area - 0.39269908169872414 * chord * chord; }
};

/// Pockets of one outer ring that are bays, the largest excess over half a circle first. A mouth is where that excess
/// is greatest, against mouths moved by a quarter of their width: where the shores of a bay open by more than about
/// 45 degrees each (4 / pi together) it ends. Of two that overlap in part the first is kept; one in another is kept
/// where it has at most half of its area.
/// Source of the half-circle test: United Nations Convention on the Law of the Sea (1982), article 10(2) and (3).
std::vector<Pocket> pockets(const Lake& lake, const Polygon& water, const ShoreRing& ring,
                            const DetectOptions& options);

}  // namespace castplan
