// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/noise.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <span>
#include <vector>

#include "castplan/grid/sweep.hpp"

namespace castplan {
namespace {

// Answers are counted by the leading bits of the number itself: its power of two and four bits of its fraction, so that
// bins are 3 to 6 % wide; from 2^-13 m, an eighth of a millimetre, to 128 m and more.
constexpr int kDropped = 19;
constexpr std::uint32_t kSmallest = 114U << 4;  // of 2^-13, less its dropped bits
constexpr std::uint32_t kBins = 1 + 20 * 16;
using Counts = std::array<std::uint64_t, kBins>;

std::uint32_t bin_of(float answer) {
  const std::uint32_t leading = std::bit_cast<std::uint32_t>(answer) >> kDropped;
  return std::min(std::max(leading, kSmallest - 1) - (kSmallest - 1), kBins - 1);
}

/// The middle of a bin.
double size_of(std::size_t bin) {
  const auto leading = static_cast<std::uint32_t>(bin) + (kSmallest - 1);
  return static_cast<double>(std::bit_cast<float>(leading << kDropped | 1U << (kDropped - 1)));
}

// Each cell against its eight neighbours: 4 in the middle, -2 at the sides, 1 at the corners.
void count_row(std::span<const Metres32> above, std::span<const Metres32> here, std::span<const Metres32> below,
               Counts& counts) {
  for (std::size_t i = 1; i + 1 < here.size(); ++i) {
    const auto wet = [i](std::span<const Metres32> row) {
      return row[i - 1].value() > 0 && row[i].value() > 0 && row[i + 1].value() > 0;
    };
    if (!wet(above) || !wet(here) || !wet(below)) continue;
    const auto across = [i](std::span<const Metres32> row) {
      return row[i - 1].value() - 2 * row[i].value() + row[i + 1].value();
    };
    ++counts[bin_of(std::fabs(across(above) - 2 * across(here) + across(below)))];
  }
}

}  // namespace

Metres cell_noise(const Grid<Metres32>& depth) {
  std::vector<Counts> parts(static_cast<std::size_t>(band_count(depth.rows())), Counts{});
  sweep(depth.rows(), [&](const Band& band) {
    for (int row = std::max(band.first, 1); row < std::min(band.last, depth.rows() - 1); ++row) {
      count_row(depth.row(row - 1), depth.row(row), depth.row(row + 1), parts[static_cast<std::size_t>(band.number)]);
    }
  });
  Counts counts{};
  std::uint64_t total = 0;
  for (const Counts& part : parts) {
    for (std::size_t bin = 0; bin < kBins; ++bin) {
      counts[bin] += part[bin];
      total += part[bin];
    }
  }
  if (total == 0) return Metres(0);
  std::uint64_t below = 0;
  std::size_t middle = 0;
  while (2 * (below += counts[middle]) < total) ++middle;
  // the mask's squares sum to 36, and half of a normal law lies within 0.6745 of its deviation
  return middle == 0 ? Metres(0) : Metres(size_of(middle) / (6 * 0.6745));
}

}  // namespace castplan
