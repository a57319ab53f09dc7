// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "survey/level.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace castplan::survey {
namespace {

using Flags = std::vector<std::uint8_t>;

bool all_have(const Level& level, int row, int col, int down, int right, std::uint8_t bit) {
  for (int r = row; r <= row + down; ++r) {
    for (int c = col; c <= col + right; ++c) {
      if (r < 0 || c < 0 || r >= level.rows || c >= level.cols || !(level.flags[level.at(r, c)] & bit)) return false;
    }
  }
  return true;
}

std::uint8_t pieces_at(const Level& level, int row, int col) {
  unsigned bits = level.flags[level.at(row, col)];
  if (!(bits & kPlate)) return 0;
  if (all_have(level, row, col - 1, 0, 2, kPlate)) bits |= kBendX;
  if (all_have(level, row - 1, col, 2, 0, kPlate)) bits |= kBendY;
  if (all_have(level, row, col, 1, 1, kPlate)) bits |= kTwist;
  if (all_have(level, row, col, 0, 1, kPlate) && all_have(level, row, col, 0, 1, kTaut)) bits |= kStretchX;
  if (all_have(level, row, col, 1, 0, kPlate) && all_have(level, row, col, 1, 0, kTaut)) bits |= kStretchY;
  return static_cast<std::uint8_t>(bits);
}

void find_pieces(Level& level) {
  Flags pieces(level.size());
  sweep_level(level, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < level.cols; ++col) {
        if (level.flags[level.at(row, col)]) pieces[level.at(row, col)] = pieces_at(level, row, col);
      }
    }
  });
  level.flags = std::move(pieces);
}

Run::Kind kind_of(const Level& level, int row, int col) {
  if (!all_have(level, row, col - 1, 0, 2, kBendX) || !all_have(level, row - 1, col, 2, 0, kBendY) ||
      !all_have(level, row - 1, col - 1, 1, 1, kTwist)) {
    return Run::Kind::rim;
  }
  const int edges = (level.flags[level.at(row, col - 1)] & kStretchX ? 1 : 0) +
                    (level.flags[level.at(row, col)] & kStretchX ? 1 : 0) +
                    (level.flags[level.at(row - 1, col)] & kStretchY ? 1 : 0) +
                    (level.flags[level.at(row, col)] & kStretchY ? 1 : 0);
  return edges == 4 ? Run::Kind::taut : edges == 0 ? Run::Kind::slack : Run::Kind::rim;
}

std::vector<Run> runs_in(const Level& level, int row) {
  std::vector<Run> runs;
  for (int col = 0; col < level.cols; ++col) {
    if (!level.flags[level.at(row, col)]) continue;
    const Run::Kind kind = kind_of(level, row, col);
    if (!runs.empty() && runs.back().last == col && runs.back().kind == kind) {
      ++runs.back().last;
    } else {
      runs.push_back({.first = col, .last = col + 1, .kind = kind});
    }
  }
  return runs;
}

void find_runs(Level& level) {
  std::vector<std::vector<Run>> of_row(static_cast<std::size_t>(level.rows));
  sweep_level(level, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) of_row[static_cast<std::size_t>(row)] = runs_in(level, row);
  });
  level.run_from.assign(1, 0);
  for (const auto& runs : of_row) {
    level.runs.insert(level.runs.end(), runs.begin(), runs.end());
    level.run_from.push_back(level.runs.size());
  }
}

/// Bilinear weights of a place on the corners of its square, in the order NW, NE, SW, SE.
std::array<double, 4> corner_weights(const Datum& datum) {
  const double east = datum.x - std::floor(datum.x);
  const double south = datum.y - std::floor(datum.y);
  return {(1 - east) * (1 - south), east * (1 - south), (1 - east) * south, east * south};
}

bool is_on(const Level& level, const Datum& datum) {
  const double row = std::floor(datum.y);
  const double col = std::floor(datum.x);
  return row >= 0 && col >= 0 && row + 1 < level.rows && col + 1 < level.cols &&
         (level.flags[level.at(static_cast<int>(row), static_cast<int>(col))] & kTwist);
}

/// Data are in order of their fine rows, so that a coarse row's lie together but its columns may alternate.
void find_squares(Level& level, const Data& data) {
  std::vector<std::pair<std::size_t, std::size_t>> order;  // square, number of the datum
  for (std::size_t i = 0; i < data.size(); ++i) {
    if (is_on(level, data[i])) {
      order.emplace_back(level.at(static_cast<int>(std::floor(data[i].y)), static_cast<int>(std::floor(data[i].x))), i);
    }
  }
  if (!std::is_sorted(order.begin(), order.end())) std::sort(order.begin(), order.end());
  level.square_from.assign(static_cast<std::size_t>(level.rows) + 1, 0);
  for (std::size_t first = 0; first < order.size();) {
    std::array<double, 10> matrix{};
    std::size_t last = first;
    for (; last < order.size() && order[last].first == order[first].first; ++last) {
      const Datum& datum = data[order[last].second];
      const auto w = corner_weights(datum);
      std::size_t k = 0;
      for (std::size_t i = 0; i < 4; ++i) {
        for (std::size_t j = i; j < 4; ++j) matrix[k++] += static_cast<double>(datum.weight) * w[i] * w[j];
      }
    }
    Square square{.col = static_cast<int>(order[first].first % static_cast<std::size_t>(level.cols)), .matrix = {}};
    std::transform(matrix.begin(), matrix.end(), square.matrix.begin(), [](double v) { return static_cast<float>(v); });
    level.squares.push_back(square);
    ++level.square_from[order[first].first / static_cast<std::size_t>(level.cols) + 1];
    first = last;
  }
  for (std::size_t row = 1; row < level.square_from.size(); ++row) level.square_from[row] += level.square_from[row - 1];
}

float plate_diagonal(const Level& level, int row, int col) {
  const auto has = [&](int r, int c, std::uint8_t bit) {
    return r >= 0 && c >= 0 && r < level.rows && c < level.cols && (level.flags[level.at(r, c)] & bit) ? 1.0F : 0.0F;
  };
  const float bends = has(row, col - 1, kBendX) + 4.0F * has(row, col, kBendX) + has(row, col + 1, kBendX) +
                      has(row - 1, col, kBendY) + 4.0F * has(row, col, kBendY) + has(row + 1, col, kBendY);
  const float twists =
      has(row - 1, col - 1, kTwist) + has(row - 1, col, kTwist) + has(row, col - 1, kTwist) + has(row, col, kTwist);
  const float stretches =
      has(row, col - 1, kStretchX) + has(row, col, kStretchX) + has(row - 1, col, kStretchY) + has(row, col, kStretchY);
  return level.bend * (bends + 2.0F * twists) + level.stretch * stretches;
}

void find_diagonal(Level& level) {
  level.over_diagonal.assign(level.size(), 0.0F);
  sweep_level(level, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (const Run& run : level.runs_of(row)) {
        for (int col = run.first; col < run.last; ++col) {
          level.over_diagonal[level.at(row, col)] =
              run.kind == Run::Kind::rim
                  ? plate_diagonal(level, row, col)
                  : 20.0F * level.bend + (run.kind == Run::Kind::taut ? 4.0F * level.stretch : 0.0F);
        }
      }
      for (const Square& square : level.squares_of(row)) {
        level.over_diagonal[level.at(row, square.col)] += square.matrix[0];
        level.over_diagonal[level.at(row, square.col + 1)] += square.matrix[4];
      }
      if (row == 0) continue;
      for (const Square& square : level.squares_of(row - 1)) {
        level.over_diagonal[level.at(row, square.col)] += square.matrix[7];
        level.over_diagonal[level.at(row, square.col + 1)] += square.matrix[9];
      }
    }
  });
  for (float& value : level.over_diagonal) value = value > 0.0F ? 1.0F / value : 0.0F;
}

}  // namespace

Level make_level(int rows, int cols, Flags flags, float bend, float stretch, const Data& data) {
  Level level;
  level.rows = rows;
  level.cols = cols;
  level.bend = bend;
  level.stretch = stretch;
  level.flags = std::move(flags);
  find_pieces(level);
  find_runs(level);
  find_squares(level, data);
  find_diagonal(level);
  return level;
}

void sweep_level(int rows, int cols, const std::function<void(const Band&)>& work) {
  constexpr std::int64_t kWorthSharing = 200'000;  // cells: below, waking threads costs more than it saves
  if (static_cast<std::int64_t>(rows) * cols >= kWorthSharing) {
    sweep(rows, work);
    return;
  }
  for (int number = 0; number < band_count(rows); ++number) {
    work({.first = number * kBandRows, .last = std::min(rows, (number + 1) * kBandRows), .number = number});
  }
}

Flags coarser_flags(const Level& fine) {
  const int rows = coarser_size(fine.rows);
  const int cols = coarser_size(fine.cols);
  const auto size = static_cast<std::size_t>(rows) * static_cast<std::size_t>(cols);
  const auto at = [&](int row, int col) {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(cols) + static_cast<std::size_t>(col);
  };
  std::vector<std::uint8_t> held(size, 0);  // cells of the plate in each, and four times as many again if taut
  for (int row = 0; row < fine.rows; ++row) {
    for (int col = 0; col < fine.cols; ++col) {
      const std::uint8_t bits = fine.flags[fine.at(row, col)];
      if (bits & kPlate) {
        held[at(row / 2 + 1, col / 2 + 1)] =
            static_cast<std::uint8_t>(held[at(row / 2 + 1, col / 2 + 1)] + 1U + (bits & kTaut ? 8U : 0U));
      }
    }
  }
  Flags flags(size, 0);
  for (int row = 0; row < rows; ++row) {
    for (int col = 0; col < cols; ++col) {
      bool near = false;
      for (int r = std::max(row - 1, 0); r <= std::min(row + 1, rows - 1) && !near; ++r) {
        for (int c = std::max(col - 1, 0); c <= std::min(col + 1, cols - 1) && !near; ++c) near = held[at(r, c)] > 0;
      }
      const unsigned own = held[at(row, col)];
      const bool taut = 2 * (own / 8) >= own % 8;  // beyond the finer plate too
      if (near) flags[at(row, col)] = static_cast<std::uint8_t>(kPlate | (taut ? kTaut : 0));
    }
  }
  return flags;
}

std::vector<float> pull(const Level& level, const Data& data) {
  std::vector<float> sum(level.size(), 0.0F);
  for (const Datum& datum : data) {
    if (!is_on(level, datum)) continue;
    const auto w = corner_weights(datum);
    const std::size_t at = level.at(static_cast<int>(std::floor(datum.y)), static_cast<int>(std::floor(datum.x)));
    const auto cols = static_cast<std::size_t>(level.cols);
    const double force = static_cast<double>(datum.weight) * static_cast<double>(datum.depth);
    sum[at] += static_cast<float>(force * w[0]);
    sum[at + 1] += static_cast<float>(force * w[1]);
    sum[at + cols] += static_cast<float>(force * w[2]);
    sum[at + cols + 1] += static_cast<float>(force * w[3]);
  }
  return sum;
}

}  // namespace castplan::survey
