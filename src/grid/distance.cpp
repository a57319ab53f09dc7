// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/distance.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "castplan/grid/sweep.hpp"

namespace castplan {
namespace {

constexpr Metres32 kFar{std::numeric_limits<float>::infinity()};
constexpr Metres32 kOne{1.0F};

/// Distance up or down its own column to the nearest cell that passes, in cells, for a strip of columns. Whole numbers
/// in a float: exact for grids of up to 2^24 rows.
void measure_columns(const RowMarks& marks, const Band& cols, Grid<Metres32>& cells) {
  std::vector<Metres32> nearest(static_cast<std::size_t>(cols.last - cols.first), kFar);
  std::vector<std::uint8_t> marked(nearest.size());
  for (int row = 0; row < cells.rows(); ++row) {
    const auto here = cells.row(row).subspan(static_cast<std::size_t>(cols.first), nearest.size());
    marks(row, cols.first, marked);
    for (std::size_t i = 0; i < nearest.size(); ++i) {
      const Metres32 further = nearest[i] + kOne;
      nearest[i] = marked[i] != 0 ? Metres32(0.0F) : further;
      here[i] = nearest[i];
    }
  }
  std::fill(nearest.begin(), nearest.end(), kFar);
  for (int row = cells.rows() - 1; row >= 0; --row) {
    const auto here = cells.row(row).subspan(static_cast<std::size_t>(cols.first), nearest.size());
    for (std::size_t i = 0; i < nearest.size(); ++i) {
      nearest[i] = std::min(here[i], nearest[i] + kOne);
      here[i] = nearest[i];
    }
  }
}

/// Lower envelope of the parabolas that stand on one row.
struct Envelope {
  std::vector<int> vertex;     ///< column of each parabola, west to east
  std::vector<double> height;  ///< of its vertex: squared distance along the column, in cells
  std::vector<double> from;    ///< where it begins to be the lowest
};

/// Within a run of cells that pass; only the ends of the run can be nearest to anything outside it.
bool is_inner(std::span<const Metres32> row, std::size_t col) {
  constexpr Metres32 kHere{0.0F};
  return row[col] == kHere && col > 0 && col + 1 < row.size() && row[col - 1] == kHere && row[col + 1] == kHere;
}

void build_envelope(std::span<const Metres32> row, Envelope& envelope) {
  envelope.vertex.clear();
  envelope.height.clear();
  envelope.from.clear();
  for (int col = 0; col < static_cast<int>(row.size()); ++col) {
    const double along = row[static_cast<std::size_t>(col)].value();
    if (!std::isfinite(along) || is_inner(row, static_cast<std::size_t>(col))) continue;
    const double height = along * along;
    double from = -std::numeric_limits<double>::infinity();
    while (!envelope.vertex.empty()) {
      const double other = envelope.vertex.back();
      from = ((height + static_cast<double>(col) * col) - (envelope.height.back() + other * other)) /
             (2.0 * (col - other));
      if (from > envelope.from.back()) break;
      envelope.vertex.pop_back();
      envelope.height.pop_back();
      envelope.from.pop_back();
      from = -std::numeric_limits<double>::infinity();
    }
    envelope.vertex.push_back(col);
    envelope.height.push_back(height);
    envelope.from.push_back(from);
  }
}

void measure_row(const Envelope& envelope, Metres cell, std::span<Metres32> row) {
  if (envelope.vertex.empty()) return;  // still infinite
  std::size_t lowest = 0;
  for (int col = 0; col < static_cast<int>(row.size()); ++col) {
    if (row[static_cast<std::size_t>(col)] == Metres32(0.0F)) continue;
    while (lowest + 1 < envelope.from.size() && envelope.from[lowest + 1] < col) ++lowest;
    const double across = col - envelope.vertex[lowest];
    const double squared = across * across + envelope.height[lowest];
    row[static_cast<std::size_t>(col)] = Metres32(static_cast<float>(cell.value() * std::sqrt(squared)));
  }
}

}  // namespace

Grid<Metres32> distance_to(const Frame& frame, const std::function<bool(Cell)>& test) {
  return distance_to_marks(frame, [&](int row, int first, std::span<std::uint8_t> out) {
    for (std::uint8_t& mark : out) mark = test({row, first++}) ? 1 : 0;
  });
}

Grid<Metres32> distance_to_marks(const Frame& frame, const RowMarks& marks) {
  Grid<Metres32> cells(frame);
  sweep(frame.cols, [&](const Band& cols) { measure_columns(marks, cols, cells); });
  sweep(frame.rows, [&](const Band& band) {
    Envelope envelope;
    for (int row = band.first; row < band.last; ++row) {
      build_envelope(cells.row(row), envelope);
      measure_row(envelope, frame.cell, cells.row(row));
    }
  });
  return cells;
}

}  // namespace castplan
