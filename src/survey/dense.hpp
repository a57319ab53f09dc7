// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "survey/level.hpp"

namespace castplan::survey {

/// The coarsest grid, solved outright by Cholesky's factors of its whole matrix.
class DenseSolver {
 public:
  explicit DenseSolver(const Level& level);
  [[nodiscard]] std::vector<float> solve(const std::vector<float>& right_side) const;

 private:
  std::vector<std::size_t> cells_;  ///< those of the plate that some piece touches
  std::vector<double> factor_;      ///< lower triangle, row by row, square storage
  std::size_t level_size_;
};

}  // namespace castplan::survey
