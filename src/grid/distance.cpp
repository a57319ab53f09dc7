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

/// Columns done at once: wide enough that memory is read by whole pieces, narrow enough to stay in a core's own cache.
constexpr int kStrip = 256;

/// A parabola on one row, of those that make the lower envelope.
struct Parabola {
  int vertex;     ///< column
  double height;  ///< of its vertex: squared distance along the column, in cells
  double from;    ///< where it begins to be the lowest
};

/// West to east; room for one a column.
struct Envelope {
  explicit Envelope(int cols) : parabolas(static_cast<std::size_t>(cols)), half_over(parabolas.size() + 1) {
    for (std::size_t apart = 1; apart < half_over.size(); ++apart) half_over[apart] = 0.5 / static_cast<double>(apart);
  }
  std::vector<Parabola> parabolas;
  /// 1 / (2 n), since a division would cost as much as all else. Where two parabolas meet is then off by a rounding;
  /// a multiple of 1 / (2 n) that is no whole number lies much further from one, and at a whole one both are as near.
  std::vector<double> half_over;
  std::size_t count = 0;
};

/// Within a run of cells that pass; only the ends of the run can be nearest to anything outside it.
bool is_inner(std::span<const Metres32> row, std::size_t col) {
  constexpr Metres32 kHere{0.0F};
  return row[col] == kHere && col > 0 && col + 1 < row.size() && row[col - 1] == kHere && row[col + 1] == kHere;
}

void build_envelope(std::span<const Metres32> row, Envelope& envelope) {
  Parabola* const all = envelope.parabolas.data();
  const double* const half_over = envelope.half_over.data();
  std::size_t count = 0;
  for (int col = 0; col < static_cast<int>(row.size()); ++col) {
    const double along = row[static_cast<std::size_t>(col)].value();
    if (!std::isfinite(along) || is_inner(row, static_cast<std::size_t>(col))) continue;
    const double height = along * along;
    double from = -std::numeric_limits<double>::infinity();
    for (; count > 0; --count) {
      const Parabola& last = all[count - 1];
      const double other = last.vertex;
      from = ((height + static_cast<double>(col) * col) - (last.height + other * other)) * half_over[col - last.vertex];
      if (from > last.from) break;
      from = -std::numeric_limits<double>::infinity();
    }
    all[count++] = {col, height, from};
  }
  envelope.count = count;
}

void measure_row(const Envelope& envelope, Metres cell, std::span<Metres32> row) {
  const Parabola* lowest = envelope.parabolas.data();
  const Parabola* const end = lowest + envelope.count;
  if (lowest == end) return;  // still infinite
  for (int col = 0; col < static_cast<int>(row.size()); ++col) {
    if (row[static_cast<std::size_t>(col)] == Metres32(0.0F)) continue;
    while (lowest + 1 < end && lowest[1].from < col) ++lowest;
    const double across = col - lowest->vertex;
    const double squared = across * across + lowest->height;
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
  each((frame.cols + kStrip - 1) / kStrip, [&](int number) {
    const int first = number * kStrip;
    measure_columns(marks, {.first = first, .last = std::min(first + kStrip, frame.cols), .number = number}, cells);
  });
  sweep(frame.rows, [&](const Band& band) {
    Envelope envelope(frame.cols);
    for (int row = band.first; row < band.last; ++row) {
      build_envelope(cells.row(row), envelope);
      measure_row(envelope, frame.cell, cells.row(row));
    }
  });
  return cells;
}

}  // namespace castplan
