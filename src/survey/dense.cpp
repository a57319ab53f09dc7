// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "survey/dense.hpp"

#include <cmath>

#include "survey/plate.hpp"

namespace castplan::survey {
namespace {

std::vector<double> column_of(const Level& level, std::size_t cell) {
  std::vector<float> unit(level.size(), 0.0F);
  unit[cell] = 1.0F;
  std::vector<double> column(level.size(), 0.0);
  for (int row = 0; row < level.rows; ++row) {
    multiply_row<double>(level, unit, row, std::span(column).subspan(level.at(row, 0), level.cols));
  }
  return column;
}

}  // namespace

DenseSolver::DenseSolver(const Level& level) : level_size_(level.size()) {
  for (std::size_t i = 0; i < level.size(); ++i) {
    if (level.over_diagonal[i] > 0.0F) cells_.push_back(i);
  }
  const std::size_t n = cells_.size();
  factor_.assign(n * n, 0.0);
  for (std::size_t j = 0; j < n; ++j) {
    const std::vector<double> column = column_of(level, cells_[j]);
    for (std::size_t i = j; i < n; ++i) factor_[i * n + j] = column[cells_[i]];
  }
  for (std::size_t j = 0; j < n; ++j) {
    // a trace on the diagonal, so that a plate that too few data hold still has an answer
    double pivot = factor_[j * n + j] * (1.0 + 1e-10) + 1e-12;
    for (std::size_t k = 0; k < j; ++k) pivot -= factor_[j * n + k] * factor_[j * n + k];
    factor_[j * n + j] = std::sqrt(std::max(pivot, 1e-12));
    for (std::size_t i = j + 1; i < n; ++i) {
      double sum = factor_[i * n + j];
      for (std::size_t k = 0; k < j; ++k) sum -= factor_[i * n + k] * factor_[j * n + k];
      factor_[i * n + j] = sum / factor_[j * n + j];
    }
  }
}

std::vector<float> DenseSolver::solve(const std::vector<float>& right_side) const {
  const std::size_t n = cells_.size();
  std::vector<double> x(n);
  for (std::size_t i = 0; i < n; ++i) {
    double sum = static_cast<double>(right_side[cells_[i]]);
    for (std::size_t k = 0; k < i; ++k) sum -= factor_[i * n + k] * x[k];
    x[i] = sum / factor_[i * n + i];
  }
  for (std::size_t i = n; i-- > 0;) {
    double sum = x[i];
    for (std::size_t k = i + 1; k < n; ++k) sum -= factor_[k * n + i] * x[k];
    x[i] = sum / factor_[i * n + i];
  }
  std::vector<float> values(level_size_, 0.0F);
  for (std::size_t i = 0; i < n; ++i) values[cells_[i]] = static_cast<float>(x[i]);
  return values;
}

}  // namespace castplan::survey
