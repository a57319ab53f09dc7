// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

#include "survey/level.hpp"

namespace castplan::survey {

/// Row by row products with the matrix of the energy (half its second derivative): bending, tension and data.
/// out: one value a column; only those of the plate are written. Sum is float, or double where differences of large
/// values must not drown.
template <class Sum>
void multiply_row(const Level& level, const std::vector<float>& values, int row, std::span<Sum> out);

extern template void multiply_row<float>(const Level&, const std::vector<float>&, int, std::span<float>);
extern template void multiply_row<double>(const Level&, const std::vector<float>&, int, std::span<double>);

}  // namespace castplan::survey
