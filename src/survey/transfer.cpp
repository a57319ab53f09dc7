// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "survey/transfer.hpp"

#include <array>

namespace castplan::survey {
namespace {

/// Weights of the three coarse cells about a fine cell in the first half of its own; in the second half mirrored.
using Weights = std::array<float, 3>;
constexpr Weights kSmooth{5.0F / 16, 10.0F / 16, 1.0F / 16};
constexpr Weights kQuadratic{5.0F / 32, 30.0F / 32, -3.0F / 32};

Weights for_cell(const Weights& weights, int index) {
  return index % 2 == 0 ? weights : Weights{weights[2], weights[1], weights[0]};
}

/// One fine row of the interpolated coarse grid, cells of the plate only.
template <class Put>
void spread_row(const Level& coarse, const std::vector<float>& values, const Level& fine, int row,
                const Weights& weights, std::vector<float>& line, const Put& put) {
  const Weights down = for_cell(weights, row);
  const float* north = values.data() + coarse.at(row / 2, 0);
  const float* middle = north + coarse.cols;
  const float* south = middle + coarse.cols;
  for (int col = 0; col < coarse.cols; ++col) {
    line[static_cast<std::size_t>(col)] = down[0] * north[col] + down[1] * middle[col] + down[2] * south[col];
  }
  for (const Run& run : fine.runs_of(row)) {
    for (int col = run.first; col < run.last; ++col) {
      const Weights right = for_cell(weights, col);
      const float* at = line.data() + col / 2;
      put(fine.at(row, col), right[0] * at[0] + right[1] * at[1] + right[2] * at[2]);
    }
  }
}

}  // namespace

std::vector<float> restricted(const Level& fine, const std::vector<float>& values, const Level& coarse) {
  constexpr std::array<float, 6> kTaps{1.0F / 16, 5.0F / 16, 10.0F / 16, 10.0F / 16, 5.0F / 16, 1.0F / 16};
  std::vector<float> sums(coarse.size(), 0.0F);
  sweep_level(coarse, [&](const Band& band) {
    constexpr int kMargin = 4;
    std::vector<float> line(static_cast<std::size_t>(2 * coarse.cols + 2 * kMargin));
    for (int row = band.first; row < band.last; ++row) {
      std::fill(line.begin(), line.end(), 0.0F);
      for (int k = 0; k < 6; ++k) {
        const int from = 2 * (row - 1) - 2 + k;
        if (from < 0 || from >= fine.rows) continue;
        const float weight = kTaps[static_cast<std::size_t>(k)];
        for (const Run& run : fine.runs_of(from)) {
          for (int col = run.first; col < run.last; ++col) {
            line[static_cast<std::size_t>(col + kMargin)] += weight * values[fine.at(from, col)];
          }
        }
      }
      for (const Run& run : coarse.runs_of(row)) {
        for (int col = run.first; col < run.last; ++col) {
          const float* at = line.data() + 2 * (col - 1) - 2 + kMargin;
          sums[coarse.at(row, col)] =
              kTaps[0] * (at[0] + at[5]) + kTaps[1] * (at[1] + at[4]) + kTaps[2] * (at[2] + at[3]);
        }
      }
    }
  });
  return sums;
}

void add_smooth(const Level& coarse, const std::vector<float>& correction, const Level& fine,
                std::vector<float>& values) {
  sweep_level(fine, [&](const Band& band) {
    std::vector<float> line(static_cast<std::size_t>(coarse.cols));
    for (int row = band.first; row < band.last; ++row) {
      spread_row(coarse, correction, fine, row, kSmooth, line,
                 [&](std::size_t at, float value) { values[at] += value; });
    }
  });
}

std::vector<float> interpolated(const Level& coarse, const std::vector<float>& values, const Level& fine) {
  std::vector<float> result(fine.size(), 0.0F);
  sweep_level(fine, [&](const Band& band) {
    std::vector<float> line(static_cast<std::size_t>(coarse.cols));
    for (int row = band.first; row < band.last; ++row) {
      spread_row(coarse, values, fine, row, kQuadratic, line, [&](std::size_t at, float value) { result[at] = value; });
    }
  });
  return result;
}

}  // namespace castplan::survey
