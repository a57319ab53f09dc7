// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "survey/solve.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "survey/dense.hpp"
#include "survey/level.hpp"
#include "survey/plate.hpp"
#include "survey/transfer.hpp"

namespace castplan::survey {
namespace {

using Values = std::vector<float>;

constexpr int kCoarsest = 14;  // cells a side
/// Largest eigenvalue of the matrix over its diagonal. Each piece has at most as many as it has cells: three for a
/// bend, four for a twist or a square of data; so the sum has at most four.
constexpr float kTop = 4.0F;
constexpr float kBottom = kTop / 16.0F;  // the finer half of the waves of a biharmonic stencil
constexpr int kSmoothings = 3;
constexpr int kCoarseSteps = 12;    // on grids that only start the next
constexpr double kSettled = 1e-12;  // of the squared residual at the start, in the measure of the V-cycle

/// Calls work(col, cell) for each cell of the plate in a band.
template <class Work>
void each_cell(const Level& level, const Band& band, const Work& work) {
  for (int row = band.first; row < band.last; ++row) {
    for (const Run& run : level.runs_of(row)) {
      const std::size_t start = level.at(row, 0);
      for (int col = run.first; col < run.last; ++col) work(start + static_cast<std::size_t>(col));
    }
  }
}

double inner_product(const Level& level, const Values& a, const Values& b) {
  std::vector<double> of_band(static_cast<std::size_t>(band_count(level.rows)), 0.0);
  sweep_level(level, [&](const Band& band) {
    double sum = 0.0;
    each_cell(level, band, [&](std::size_t i) { sum += static_cast<double>(a[i]) * static_cast<double>(b[i]); });
    of_band[static_cast<std::size_t>(band.number)] = sum;
  });
  double total = 0.0;
  for (const double sum : of_band) total += sum;
  return total;
}

/// target less the matrix times values, with sums in double: the values are large and their bending is small.
Values residual_of(const Level& level, const Values& values, const Values& target) {
  Values residual(level.size(), 0.0F);
  sweep_level(level, [&](const Band& band) {
    std::vector<double> product_row(static_cast<std::size_t>(level.cols));
    for (int row = band.first; row < band.last; ++row) {
      multiply_row<double>(level, values, row, product_row);
      for (const Run& run : level.runs_of(row)) {
        for (int col = run.first; col < run.last; ++col) {
          const std::size_t i = level.at(row, col);
          residual[i] = static_cast<float>(static_cast<double>(target[i]) - product_row[static_cast<std::size_t>(col)]);
        }
      }
    }
  });
  return residual;
}

void multiply(const Level& level, const Values& values, Values& result) {
  sweep_level(level, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      multiply_row<float>(level, values, row, std::span(result).subspan(level.at(row, 0), level.cols));
    }
  });
}

/// Steps along a direction; the longest way that any cell goes.
float advance(const Level& level, float length, const Values& direction, const Values& product, Values& values,
              Values& residual) {
  std::vector<float> moved(static_cast<std::size_t>(band_count(level.rows)), 0.0F);
  sweep_level(level, [&](const Band& band) {
    float most = 0.0F;
    each_cell(level, band, [&](std::size_t i) {
      const float move = length * direction[i];
      values[i] += move;
      residual[i] -= length * product[i];
      most = std::max(most, std::abs(move));
    });
    moved[static_cast<std::size_t>(band.number)] = most;
  });
  return *std::max_element(moved.begin(), moved.end());
}

/// Takes the last step out of the residual and makes the next one of it, in one pass over the rows.
void next_polynomial(const Level& level, float keep, float take, const Values& step, Values& next_step,
                     Values& residual, Values& values) {
  sweep_level(level, [&](const Band& band) {
    Values product_row(static_cast<std::size_t>(level.cols));
    for (int row = band.first; row < band.last; ++row) {
      multiply_row<float>(level, step, row, product_row);
      const std::size_t start = level.at(row, 0);
      for (const Run& run : level.runs_of(row)) {
        for (auto col = static_cast<std::size_t>(run.first); col < static_cast<std::size_t>(run.last); ++col) {
          const std::size_t i = start + col;
          residual[i] -= product_row[col];
          next_step[i] = keep * step[i] + take * level.over_diagonal[i] * residual[i];
          values[i] += next_step[i];
        }
      }
    }
  });
}

class Multigrid {
 public:
  Multigrid(PlateProblem problem);
  PlateSolution solve();

 private:
  struct Work {
    Values step;  ///< of the polynomial
    Values next_step;
  };

  void smooth(std::size_t number, Values& residual, Values& values, bool leave_residual);
  Values cycle(std::size_t number, Values& residual);
  PlateSolution conjugate(std::size_t number, Values values, const Values& target, int most_steps);

  std::vector<Level> levels_;
  std::vector<Data> data_;
  std::vector<Work> work_;
  std::optional<DenseSolver> coarsest_;
  float within_;
  int most_steps_;
};

Multigrid::Multigrid(PlateProblem problem) : within_(problem.within), most_steps_(problem.most_steps) {
  int rows = problem.rows;
  int cols = problem.cols;
  float bend = 1.0F;
  std::vector<std::uint8_t> flags = std::move(problem.flags);
  Data data = std::move(problem.data);
  while (true) {
    levels_.push_back(make_level(rows, cols, std::move(flags), bend, problem.stretch, data));
    data_.push_back(data);
    if (std::max(rows, cols) <= kCoarsest) break;
    flags = coarser_flags(levels_.back());
    rows = coarser_size(rows);
    cols = coarser_size(cols);
    bend /= 4.0F;
    for (Datum& datum : data) {
      datum.x = coarser_place(datum.x);
      datum.y = coarser_place(datum.y);
    }
    data = blocked(std::move(data));
  }
  coarsest_.emplace(levels_.back());
  for (const Level& level : levels_) work_.push_back({Values(level.size()), Values(level.size())});
}

/// Chebyshev's polynomial of the matrix over its diagonal, for the upper part of the spectrum: residual -> correction,
/// added to values. Source: Saad (2003), Iterative methods for sparse linear systems, 2nd ed., algorithm 12.1.
void Multigrid::smooth(std::size_t number, Values& residual, Values& values, bool leave_residual) {
  const Level& level = levels_[number];
  Values& step = work_[number].step;
  Values& next_step = work_[number].next_step;
  const float middle = (kTop + kBottom) / 2.0F;
  const float half = (kTop - kBottom) / 2.0F;
  const float ratio = middle / half;
  float rho = 1.0F / ratio;
  sweep_level(level, [&](const Band& band) {
    each_cell(level, band, [&](std::size_t i) {
      step[i] = level.over_diagonal[i] * residual[i] / middle;
      values[i] += step[i];
    });
  });
  for (int k = 1; k < kSmoothings; ++k) {
    const float next_rho = 1.0F / (2.0F * ratio - rho);
    next_polynomial(level, next_rho * rho, 2.0F * next_rho / half, step, next_step, residual, values);
    std::swap(step, next_step);
    rho = next_rho;
  }
  if (!leave_residual) return;
  multiply(level, step, next_step);
  sweep_level(level,
              [&](const Band& band) { each_cell(level, band, [&](std::size_t i) { residual[i] -= next_step[i]; }); });
}

/// One V-cycle from zero: about the solution for a right-hand side. Uses the right-hand side up.
Values Multigrid::cycle(std::size_t number, Values& residual) {
  const Level& level = levels_[number];
  if (number + 1 == levels_.size()) return coarsest_->solve(residual);
  Values values(level.size(), 0.0F);
  smooth(number, residual, values, true);
  {
    const Level& coarse = levels_[number + 1];
    Values coarse_residual = restricted(level, residual, coarse);
    const Values correction = cycle(number + 1, coarse_residual);
    Values added(level.size(), 0.0F);
    add_smooth(coarse, correction, level, added);
    Values& product = work_[number].step;  // free between two smoothings
    multiply(level, added, product);
    advance(level, 1.0F, added, product, values, residual);
  }
  smooth(number, residual, values, false);
  return values;
}

/// Preconditioned conjugate gradients. Source: Hestenes & Stiefel (1952), J. Res. Natl. Bur. Stand. 49, 409-436.
PlateSolution Multigrid::conjugate(std::size_t number, Values values, const Values& target, int most_steps) {
  const Level& level = levels_[number];
  Values residual = residual_of(level, values, target);
  Values direction(level.size(), 0.0F);
  PlateSolution solution;
  double before = 0.0;
  double first = 0.0;
  while (solution.steps < most_steps) {
    Values scratch = residual;
    const Values conditioned = cycle(number, scratch);
    const double now = inner_product(level, residual, conditioned);
    if (!(now > kSettled * first)) break;
    if (solution.steps == 0) first = now;
    const auto keep = static_cast<float>(solution.steps == 0 ? 0.0 : now / before);
    before = now;
    sweep_level(level, [&](const Band& band) {
      each_cell(level, band, [&](std::size_t i) { direction[i] = conditioned[i] + keep * direction[i]; });
    });
    multiply(level, direction, scratch);
    const double curvature = inner_product(level, direction, scratch);
    if (!(curvature > 0.0)) break;
    solution.last_move = advance(level, static_cast<float>(now / curvature), direction, scratch, values, residual);
    ++solution.steps;
    if (solution.last_move < within_) break;
  }
  solution.values = std::move(values);
  return solution;
}

PlateSolution Multigrid::solve() {
  std::size_t number = levels_.size() - 1;
  PlateSolution solution;
  solution.values = coarsest_->solve(pull(levels_[number], data_[number]));
  while (number > 0) {
    --number;
    Values start = interpolated(levels_[number + 1], solution.values, levels_[number]);
    solution = conjugate(number, std::move(start), pull(levels_[number], data_[number]),
                         number == 0 ? most_steps_ : std::min(most_steps_, kCoarseSteps));
    data_[number] = {};
  }
  return solution;
}

}  // namespace

PlateSolution solve(PlateProblem problem) { return Multigrid(std::move(problem)).solve(); }

}  // namespace castplan::survey
