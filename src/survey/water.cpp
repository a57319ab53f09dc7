// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "survey/water.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "castplan/grid/sweep.hpp"

namespace castplan::survey {
namespace {

using Crossings = std::vector<std::vector<double>>;  // of each row, metres east

/// Where the ring crosses the line of cell centres of each row; a vertex on the line belongs to the edge above it.
void add_crossings(const Frame& frame, const Ring& ring, Crossings& crossings) {
  const auto row_of = [&](double y) { return (frame.corner.y - y) / frame.cell.value() - 0.5; };
  for (std::size_t i = 1; i < ring.size(); ++i) {
    const XY a = ring[i - 1];
    const XY b = ring[i];
    const double from = row_of(a.y);
    const double to = row_of(b.y);
    const double first = std::max(std::floor(std::min(from, to)), -1.0);
    const double last = std::min(std::ceil(std::max(from, to)), static_cast<double>(frame.rows));
    for (int row = static_cast<int>(first); row <= static_cast<int>(last); ++row) {
      if (row < 0 || row >= frame.rows) continue;
      const double y = frame.centre({row, 0}).y;
      if ((a.y > y) == (b.y > y)) continue;
      crossings[static_cast<std::size_t>(row)].push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
    }
  }
}

}  // namespace

Grid<std::uint8_t> cells_inside(const Frame& frame, const Polygons& polygons) {
  Crossings crossings(static_cast<std::size_t>(frame.rows));
  for (const Polygon& polygon : polygons) {
    add_crossings(frame, polygon.outer, crossings);
    for (const Ring& hole : polygon.holes) add_crossings(frame, hole, crossings);
  }
  Grid<std::uint8_t> inside(frame, 0);
  sweep(frame.rows, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      std::vector<double>& of_row = crossings[static_cast<std::size_t>(row)];
      std::sort(of_row.begin(), of_row.end());
      for (std::size_t i = 0; i + 1 < of_row.size(); i += 2) {
        const double west = (of_row[i] - frame.corner.x) / frame.cell.value() - 0.5;
        const double east = (of_row[i + 1] - frame.corner.x) / frame.cell.value() - 0.5;
        const int first = static_cast<int>(std::clamp(std::ceil(west), 0.0, static_cast<double>(frame.cols)));
        const int last = static_cast<int>(std::clamp(std::ceil(east), 0.0, static_cast<double>(frame.cols)));
        for (int col = first; col < last; ++col) inside[{row, col}] = 1;
      }
    }
  });
  return inside;
}

}  // namespace castplan::survey
