// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "survey/level.hpp"

namespace castplan::survey {

/// Sums a fine residual into the coarse grid: the transpose of `add_smooth`.
std::vector<float> restricted(const Level& fine, const std::vector<float>& values, const Level& coarse);

/// Adds a coarse correction to the fine values by quartic B-spline subdivision (weights 5, 10, 1 and 1, 10, 5 of 16 in
/// each direction): smooth to third derivatives, so that it brings no bending of its own.
void add_smooth(const Level& coarse, const std::vector<float>& correction, const Level& fine,
                std::vector<float>& values);

/// Coarse values at the centres of the fine cells, by quadratic interpolation (exact for polynomials of degree two).
std::vector<float> interpolated(const Level& coarse, const std::vector<float>& values, const Level& fine);

}  // namespace castplan::survey
