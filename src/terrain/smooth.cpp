// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/smooth.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "castplan/grid/sweep.hpp"

namespace castplan {
namespace {

/// Columns done at once, so that the rows of a band in work stay in a core's own cache.
constexpr int kTile = 512;

/// Weights of the middle cell and of the cells at 1, 2 ... steps to either side; all weights sum to 1.
std::vector<float> gauss_weights(Metres cell, Metres sigma) {
  const double steps = sigma / cell;
  const int reach = steps > 0.0 ? static_cast<int>(std::floor(3.0 * steps + 1e-9)) : 0;
  std::vector<double> weights;
  double sum = 0.0;
  for (int i = 0; i <= reach; ++i) {
    weights.push_back(i == 0 ? 1.0 : std::exp(-0.5 * (i / steps) * (i / steps)));
    sum += (i == 0 ? 1.0 : 2.0) * weights.back();
  }
  std::vector<float> rounded;
  for (const double weight : weights) rounded.push_back(static_cast<float>(weight / sum));
  return rounded;
}

/// out[i] = sum of weights times the values around in[i]; in steps of `stride` along the direction of the mean.
void weigh(const std::vector<float>& weights, const float* in, std::ptrdiff_t stride, int count, float* out) {
  for (int i = 0; i < count; ++i) out[i] = weights[0] * in[i];
  for (std::size_t k = 1; k < weights.size(); ++k) {
    const float weight = weights[k];
    const float* before = in - static_cast<std::ptrdiff_t>(k) * stride;
    const float* after = in + static_cast<std::ptrdiff_t>(k) * stride;
    for (int i = 0; i < count; ++i) out[i] += weight * (before[i] + after[i]);
  }
}

/// Smooths a band of rows, tile by tile: means along rows for the band and its halo, then along columns.
class BandSmoother {
 public:
  BandSmoother(const Grid<Metres32>& depth, const std::vector<float>& weights, Grid<Metres32>& out)
      : depth_(depth), weights_(weights), reach_(static_cast<int>(weights.size()) - 1), out_(out) {
    const auto padded = static_cast<std::size_t>(kTile + 2 * reach_);
    values_.resize(padded);
    known_.resize(padded);
    value_means_.resize(static_cast<std::size_t>(kBandRows + 2 * reach_) * kTile);
    known_means_.resize(value_means_.size());
    value_sum_.resize(kTile);
    known_sum_.resize(kTile);
  }

  void run(const Band& band) {
    for (int col = 0; col < depth_.cols(); col += kTile) {
      const int count = std::min(kTile, depth_.cols() - col);
      for (int row = band.first - reach_; row < band.last + reach_; ++row) {
        const auto line = static_cast<std::size_t>(row - band.first + reach_) * kTile;
        read(row, col, count);
        weigh(weights_, values_.data() + reach_, 1, count, &value_means_[line]);
        weigh(weights_, known_.data() + reach_, 1, count, &known_means_[line]);
      }
      for (int row = band.first; row < band.last; ++row) write(row, row - band.first + reach_, col, count);
    }
  }

 private:
  /// One row of a tile with its halo: 0 and 0 for unknown cells and outside the grid.
  void read(int row, int col, int count) {
    std::fill(values_.begin(), values_.end(), 0.0F);
    std::fill(known_.begin(), known_.end(), 0.0F);
    if (row < 0 || row >= depth_.rows()) return;
    const auto cells = depth_.row(row);
    const int first = std::max(col - reach_, 0);
    const int last = std::min(col + count + reach_, depth_.cols());
    const Metres32* in = cells.data() + first;
    float* value = values_.data() + (first - col + reach_);
    float* known = known_.data() + (first - col + reach_);
    for (int i = 0; i < last - first; ++i) {
      const bool there = !std::isnan(in[i].value());
      value[i] = there ? in[i].value() : 0.0F;
      known[i] = there ? 1.0F : 0.0F;
    }
  }

  void write(int row, int line, int col, int count) {
    const auto start = static_cast<std::size_t>(line) * kTile;
    weigh(weights_, &value_means_[start], kTile, count, value_sum_.data());
    weigh(weights_, &known_means_[start], kTile, count, known_sum_.data());
    const Metres32* in = depth_.row(row).data() + col;
    Metres32* out = out_.row(row).data() + col;
    for (int i = 0; i < count; ++i) {
      const auto at = static_cast<std::size_t>(i);
      const float mean = value_sum_[at] / known_sum_[at];
      out[i] = std::isnan(in[i].value()) ? in[i] : Metres32(mean);
    }
  }

  const Grid<Metres32>& depth_;
  const std::vector<float>& weights_;
  int reach_;
  Grid<Metres32>& out_;
  std::vector<float> values_, known_;
  std::vector<float> value_means_, known_means_;
  std::vector<float> value_sum_, known_sum_;
};

}  // namespace

Grid<Metres32> smoothed(const Grid<Metres32>& depth, Metres sigma) {
  const std::vector<float> weights = gauss_weights(depth.frame().cell, sigma);
  if (weights.size() == 1) return depth;
  Grid<Metres32> out(depth.frame());
  sweep(depth.rows(), [&](const Band& band) { BandSmoother(depth, weights, out).run(band); });
  return out;
}

}  // namespace castplan
