// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/smooth.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "castplan/grid/hot.hpp"
#include "castplan/grid/sweep.hpp"

namespace castplan {
namespace {

/// Columns done at once, so that the rows of a band in work stay in a core's own cache.
constexpr int kTile = 512;

constexpr Metres32 kUnknown{std::numeric_limits<float>::quiet_NaN()};

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
CASTPLAN_HOT void weigh(const float* weights, int reach, const float* in, std::ptrdiff_t stride, int count,
                        float* out) {
  constexpr int kChunk = 64;  // sums that stay in registers
  for (int first = 0; first < count; first += kChunk) {
    const int last = std::min(count, first + kChunk);
    for (int i = first; i < last; ++i) out[i] = weights[0] * in[i];
    for (int k = 1; k <= reach; ++k) {
      const float weight = weights[k];
      const float* before = in - k * stride;
      const float* after = in + k * stride;
      for (int i = first; i < last; ++i) out[i] += weight * (before[i] + after[i]);
    }
  }
}

/// The same where every value is one.
float weigh_ones(const std::vector<float>& weights, float value) {
  float sum = weights[0] * value;
  for (std::size_t k = 1; k < weights.size(); ++k) sum += weights[k] * (value + value);
  return sum;
}

CASTPLAN_HOT bool all_equal(const float* values, std::size_t count, float to) {
  int differ = 0;
  for (std::size_t i = 0; i < count; ++i) differ |= static_cast<int>(values[i] != to);
  return differ == 0;
}

/// Splits a row into values, 0 where unknown, and 1 or 0 for known or not.
CASTPLAN_HOT void split_row(const Metres32* in, int count, float* value, float* known) {
  for (int i = 0; i < count; ++i) {
    const float v = in[i].value();
    value[i] = v == v ? v : 0.0F;
    known[i] = v == v ? 1.0F : 0.0F;
  }
}

/// Smooths a band of rows, tile by tile: means along rows for the band and its halo, then along columns.
class BandSmoother {
 public:
  BandSmoother(const FieldRows& depth, const std::vector<float>& weights, Grid<Metres32>& out)
      : depth_(depth), weights_(weights), reach_(static_cast<int>(weights.size()) - 1), out_(out) {
    all_known_ = weigh_ones(weights, weigh_ones(weights, 1.0F));
    const std::size_t lines = static_cast<std::size_t>(kBandRows + 2 * reach_);
    padded_ = static_cast<std::size_t>(depth.frame.cols) + 2 * static_cast<std::size_t>(reach_);
    values_.resize(lines * padded_);
    known_.resize(lines * padded_);
    value_means_.resize(lines * kTile);
    known_means_.resize(value_means_.size());
    value_sum_.resize(kTile);
    known_sum_.resize(kTile, all_known_);
    room_.resize(static_cast<std::size_t>(depth.frame.cols));
  }

  void run(const Band& band) {
    for (int row = band.first - reach_; row < band.last + reach_; ++row) read(row, row - band.first + reach_);
    const int lines = band.last - band.first + 2 * reach_;
    for (int col = 0; col < depth_.frame.cols; col += kTile) {
      const int count = std::min(kTile, depth_.frame.cols - col);
      const State state = state_of(lines, col, count);
      if (state == State::zeros) continue;  // as the grid begins
      if (state != State::unknown) means_along_rows(lines, col, count, state);
      for (int row = band.first; row < band.last; ++row) write(row, row - band.first + reach_, col, count, state);
    }
  }

 private:
  /// What a tile with its halo holds: most tiles of a large lake are water or land throughout.
  enum class State { zeros, known, unknown, mixed };

  [[nodiscard]] std::size_t start(int line) const { return static_cast<std::size_t>(line) * padded_; }

  /// One row with its halo: 0 and 0 for unknown cells and outside the grid.
  void read(int row, int line) {
    float* value = &values_[start(line)];
    float* known = &known_[start(line)];
    const int cols = depth_.frame.cols;
    if (row < 0 || row >= depth_.frame.rows) {
      std::fill(value, value + padded_, 0.0F);
      std::fill(known, known + padded_, 0.0F);
      return;
    }
    for (float* each : {value, known}) {
      std::fill(each, each + reach_, 0.0F);
      std::fill(each + reach_ + cols, each + padded_, 0.0F);
    }
    split_row(depth_.row(row, room_), cols, value + reach_, known + reach_);
  }

  [[nodiscard]] State state_of(int lines, int col, int count) const {
    const float first = known_[start(0) + static_cast<std::size_t>(col)];
    bool zeros = first == 1.0F;
    const auto width = static_cast<std::size_t>(count + 2 * reach_);
    for (int line = 0; line < lines; ++line) {
      const std::size_t at = start(line) + static_cast<std::size_t>(col);
      if (!all_equal(&known_[at], width, first)) return State::mixed;
      zeros = zeros && all_equal(&values_[at], width, 0.0F);
    }
    if (zeros) return State::zeros;
    return first == 1.0F ? State::known : State::unknown;
  }

  void means_along_rows(int lines, int col, int count, State state) {
    for (int line = 0; line < lines; ++line) {
      const std::size_t from = start(line) + static_cast<std::size_t>(col + reach_);
      const auto to = static_cast<std::size_t>(line) * kTile;
      weigh(weights_.data(), reach_, &values_[from], 1, count, &value_means_[to]);
      if (state == State::mixed) weigh(weights_.data(), reach_, &known_[from], 1, count, &known_means_[to]);
    }
  }

  void write(int row, int line, int col, int count, State state) {
    const auto at = static_cast<std::size_t>(line) * kTile;
    Metres32* out = out_.row(row).data() + col;
    const float* known = &known_[start(line) + static_cast<std::size_t>(col + reach_)];
    if (state == State::unknown) {
      std::fill(out, out + count, kUnknown);
      return;
    }
    weigh(weights_.data(), reach_, &value_means_[at], kTile, count, value_sum_.data());
    if (state == State::known) {
      for (int i = 0; i < count; ++i) out[i] = Metres32(value_sum_[static_cast<std::size_t>(i)] / all_known_);
      return;
    }
    weigh(weights_.data(), reach_, &known_means_[at], kTile, count, known_sum_.data());
    for (int i = 0; i < count; ++i) {
      const auto cell = static_cast<std::size_t>(i);
      out[i] = known[i] == 0.0F ? kUnknown : Metres32(value_sum_[cell] / known_sum_[cell]);
    }
  }

  const FieldRows& depth_;
  const std::vector<float>& weights_;
  int reach_;
  Grid<Metres32>& out_;
  float all_known_{};     ///< what the weights of a window of known cells add up to
  std::size_t padded_{};  ///< cells of a row with its halo
  std::vector<float> values_, known_;
  std::vector<float> value_means_, known_means_;
  std::vector<float> value_sum_, known_sum_;
  std::vector<Metres32> room_;
};

}  // namespace

Grid<Metres32> smoothed(const FieldRows& depth, Metres sigma) {
  const std::vector<float> weights = gauss_weights(depth.frame.cell, sigma);
  Grid<Metres32> out(depth.frame);
  sweep(depth.frame.rows, [&](const Band& band) { BandSmoother(depth, weights, out).run(band); });
  return out;
}

Grid<Metres32> smoothed(const Grid<Metres32>& depth, Metres sigma) { return smoothed(FieldRows::of(depth), sigma); }

}  // namespace castplan
