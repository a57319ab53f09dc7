// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "castplan/io/raster.hpp"

namespace castplan {
namespace {

/// For each row of cell centres, where the rings cross it, ascending. Even-odd: between the first and second is inside.
std::vector<std::vector<double>> crossings(const Frame& frame, const Polygons& shoreline) {
  std::vector<std::vector<double>> rows(static_cast<std::size_t>(frame.rows));
  const auto add_edge = [&](XY a, XY b) {
    if (a.y == b.y) return;
    if (a.y > b.y) std::swap(a, b);
    // rows whose centre lies in [a.y, b.y): half open, so that a shared vertex counts once
    const double side = frame.cell.value();
    const auto row_of = [&](double y) { return (frame.corner.y - y) / side - 0.5; };
    const double first = std::max(0.0, std::floor(row_of(b.y)) + 1);
    const double last = std::min(frame.rows - 1.0, std::floor(row_of(a.y)));
    for (double r = first; r <= last; ++r) {
      const double y = frame.corner.y - (r + 0.5) * side;
      rows[static_cast<std::size_t>(r)].push_back(a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y));
    }
  };
  const auto add_ring = [&](const Ring& ring) {
    for (std::size_t i = 1; i < ring.size(); ++i) add_edge(ring[i - 1], ring[i]);
  };
  for (const Polygon& polygon : shoreline) {
    add_ring(polygon.outer);
    for (const Ring& hole : polygon.holes) add_ring(hole);
  }
  for (auto& row : rows) std::sort(row.begin(), row.end());
  return rows;
}

bool holds_water(const Grid<Metres32>& depth, const Polygon& polygon) {
  const Frame& frame = depth.frame();
  const auto rows = crossings(frame, {polygon});
  const auto column_from = [&](double x) { return std::ceil((x - frame.corner.x) / frame.cell.value() - 0.5); };
  for (int r = 0; r < frame.rows; ++r) {
    const auto& cuts = rows[static_cast<std::size_t>(r)];
    for (std::size_t i = 0; i + 1 < cuts.size(); i += 2) {
      const double end = std::min<double>(frame.cols, column_from(cuts[i + 1]));
      for (double c = std::max(0.0, column_from(cuts[i])); c < end; ++c) {
        if (depth[Cell{r, static_cast<int>(c)}].value() > 0) return true;
      }
    }
  }
  return false;
}

}  // namespace

Polygons clip_to_shoreline(Grid<Metres32>& depth, const Polygons& shoreline) {
  const Metres32 land(-std::numeric_limits<float>::infinity());
  const Frame& frame = depth.frame();
  const auto rows = crossings(frame, shoreline);
  for (int r = 0; r < frame.rows; ++r) {
    const auto& cuts = rows[static_cast<std::size_t>(r)];
    std::size_t passed = 0;
    for (int c = 0; c < frame.cols; ++c) {
      const double x = frame.centre({r, c}).x;
      while (passed < cuts.size() && cuts[passed] <= x) ++passed;
      if (passed % 2 == 0) depth[Cell{r, c}] = land;
    }
  }
  Polygons wet;
  for (const Polygon& polygon : shoreline) {
    if (holds_water(depth, polygon)) wet.push_back(polygon);
  }
  return wet;
}

}  // namespace castplan
