// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "castplan/geo/shape.hpp"
#include "castplan/grid/lake.hpp"

namespace castplan {

/// The sigma of the smoothing on which contours are followed: a hundredth of the lake's size, from 12 to 40 m, or 1.25
/// cells; up to twice that for depths of poor quality.
Metres bend_scale(const Lake& lake);

/// A place where a depth contour bends more than around it.
struct Bend {
  XY at;
  XY deep;        ///< unit vector along the bend's axis, towards deeper water
  double turn{};  ///< how far the place stands off the middle of its chord, as a share of half the contour between
                  ///< its ends: sin of half the angle for a corner between straight lines
  int level{};    ///< number of the contour's depth
};

struct BendOptions {
  Metres window;        ///< length of contour to each side of a place
  Metres step;          ///< between places on a contour
  double least = 0.2;   ///< smallest turn
  bool outward = true;  ///< bends towards the deep (points); else away from it (inside turns)
};

/// Bends of the contours of one depth, in the order of the lines. On at least one side a bend is followed, within two
/// and a half windows, by contour that bends the other way, and on the other its turn falls by half: round lakes, and
/// the ends of oval ones, have none. Contours shorter than eight windows are too small to carry any, and nothing is
/// said within a window of a contour's open end. lines: from `isolines`, deeper water on the left.
std::vector<Bend> bends(const Lines& lines, int level, const BendOptions& options);

/// Bends that lie below one another at successive depths, shallowest first; a depth may be missing between two.
using BendChain = std::vector<Bend>;
/// by_level: bends of each depth, shallowest first. reach: how far the next bend may lie. Chains of at least two.
std::vector<BendChain> chained(const std::vector<std::vector<Bend>>& by_level, Metres reach);

}  // namespace castplan
