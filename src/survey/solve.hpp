// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <vector>

#include "survey/datum.hpp"

namespace castplan::survey {

/// A thin plate with a free rim that data pull at.
struct PlateProblem {
  int rows{};
  int cols{};
  std::vector<std::uint8_t> flags;  ///< kPlate and kTaut of each cell (level.hpp)
  float stretch{};                  ///< squared (cell side / length over which tension beats bending)
  Data data;                        ///< blocked; places in cells of this grid
  float within{0.0005F};            ///< metres: stop when no cell moves more in a step
  int most_steps{30};               ///< on the finest grid
};

struct PlateSolution {
  std::vector<float> values;  ///< metres, 0 outside the plate
  int steps{};                ///< on the finest grid
  float last_move{};          ///< metres, of the last step there
};

/// The least of sum over pieces of (second differences)^2 + stretch (first differences)^2 + sum of weight (plate -
/// depth)^2, with the plate read between cell centres by bilinear interpolation. Nested iteration: the answer of each
/// coarser grid starts the next finer one, where conjugate gradients run, preconditioned by a multigrid V-cycle that is
/// smoothed by Chebyshev polynomials. Time and memory grow linearly with cells; the same bytes at any number of
/// threads. Sources: Briggs (1974), Geophysics 39, 39-48 (least squared curvature on a grid); Brandt (1977), Math.
/// Comp. 31, 333-390 (multigrid); Adams, Brezina, Hu & Tuminaro (2003), J. Comput. Phys. 188, 593-610 (polynomial
/// smoothing).
PlateSolution solve(PlateProblem problem);

}  // namespace castplan::survey
