// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "survey/error_curve.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace castplan {

Metres ErrorCurve::at(Metres distance) const {
  if (knots.empty()) return least;
  const auto above = std::find_if(knots.begin(), knots.end(), [&](const Knot& k) { return k.distance > distance; });
  if (above == knots.begin()) return std::max(least, knots.front().error);
  const Knot& below = *(above - 1);
  if (above == knots.end()) {
    const double share = below.distance > Metres(0.0) ? std::max(1.0, distance / below.distance) : 1.0;
    return std::max(least, below.error * share);
  }
  const double share = (distance - below.distance) / (above->distance - below.distance);
  return std::max(least, below.error + (above->error - below.error) * share);
}

}  // namespace castplan

namespace castplan::survey {
namespace {

constexpr double kNinety = 1.645;  // 90 % of a normal law lie within so many standard errors
constexpr std::size_t kMostBands = 12;
constexpr std::size_t kLeastInBand = 30;
constexpr int kDepthClasses = 5;

/// Value below which a share of the sorted values lies.
double quantile(const std::vector<double>& sorted, double share) {
  const double place = share * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return sorted[below] + (place - static_cast<double>(below)) * (sorted[above] - sorted[below]);
}

HeldBack held_back(const std::vector<double>& errors) {
  HeldBack result;
  result.count = errors.size();
  if (errors.empty()) return result;
  double sum = 0.0;
  double squares = 0.0;
  std::vector<double> sizes;
  for (const double error : errors) {
    sum += error;
    squares += error * error;
    sizes.push_back(std::abs(error));
  }
  std::sort(sizes.begin(), sizes.end());
  const auto count = static_cast<double>(errors.size());
  result.rmse = Metres(std::sqrt(squares / count));
  result.bias = Metres(sum / count);
  result.p95 = Metres(quantile(sizes, 0.95));
  return result;
}

struct Pool {
  double distance;
  double error;
  double weight;
};

/// Joins neighbours until the errors never fall.
std::vector<Pool> never_falling(const std::vector<Pool>& bands) {
  std::vector<std::vector<Pool>> pools;
  const auto mean = [](const std::vector<Pool>& pool) {
    double sum = 0.0;
    double weight = 0.0;
    for (const Pool& band : pool) {
      sum += band.weight * band.error;
      weight += band.weight;
    }
    return sum / weight;
  };
  for (const Pool& band : bands) {
    pools.push_back({band});
    while (pools.size() > 1 && mean(pools[pools.size() - 2]) > mean(pools.back())) {
      auto& joined = pools[pools.size() - 2];
      joined.insert(joined.end(), pools.back().begin(), pools.back().end());
      pools.pop_back();
    }
  }
  std::vector<Pool> result;
  for (const auto& pool : pools) {
    for (const Pool& band : pool) result.push_back({band.distance, mean(pool), band.weight});
  }
  return result;
}

}  // namespace

CrossValidation summary_of(const std::vector<Residual>& residuals) {
  CrossValidation result;
  std::vector<double> errors;
  double deepest = 0.0;
  for (const Residual& residual : residuals) {
    errors.push_back(residual.error);
    deepest = std::max(deepest, residual.depth);
  }
  result.all = held_back(errors);
  for (int number = 0; number < kDepthClasses && deepest > 0.0; ++number) {
    const double width = deepest / kDepthClasses;
    std::vector<double> of_class;
    for (const Residual& residual : residuals) {
      if (std::min(static_cast<int>(residual.depth / width), kDepthClasses - 1) == number) {
        of_class.push_back(residual.error);
      }
    }
    if (!of_class.empty()) {
      result.by_depth.push_back(
          {.from = Metres(number * width), .to = Metres((number + 1) * width), .result = held_back(of_class)});
    }
  }
  return result;
}

ErrorCurve curve_of(std::vector<Residual> residuals, Metres least) {
  ErrorCurve curve{.knots = {}, .least = least};
  std::sort(residuals.begin(), residuals.end(), [](const Residual& a, const Residual& b) {
    return std::tie(a.distance, a.error, a.depth) < std::tie(b.distance, b.error, b.depth);
  });
  const std::size_t count = std::clamp<std::size_t>(residuals.size() / kLeastInBand, 1, kMostBands);
  std::vector<Pool> bands;
  for (std::size_t number = 0; number < count && !residuals.empty(); ++number) {
    const std::size_t first = number * residuals.size() / count;
    const std::size_t last = (number + 1) * residuals.size() / count;
    std::vector<double> sizes;
    double distance = 0.0;
    for (std::size_t i = first; i < last; ++i) {
      sizes.push_back(std::abs(residuals[i].error));
      distance += residuals[i].distance;
    }
    std::sort(sizes.begin(), sizes.end());
    const auto n = static_cast<double>(sizes.size());
    bands.push_back({.distance = distance / n, .error = quantile(sizes, 0.9) / kNinety, .weight = n});
  }
  for (const Pool& band : never_falling(bands)) {
    const Metres error = std::max(least, Metres(band.error));
    if (!curve.knots.empty() && Metres(band.distance) <= curve.knots.back().distance) {
      curve.knots.back().error = std::max(curve.knots.back().error, error);
    } else {
      curve.knots.push_back({.distance = Metres(band.distance), .error = error});
    }
  }
  return curve;
}

}  // namespace castplan::survey
