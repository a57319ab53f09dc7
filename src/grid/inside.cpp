// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/inside.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace castplan {

std::vector<Ring> rings_of(const Polygons& polygons) {
  std::vector<Ring> rings;
  for (const Polygon& polygon : polygons) {
    rings.push_back(polygon.outer);
    rings.insert(rings.end(), polygon.holes.begin(), polygon.holes.end());
  }
  return rings;
}

void runs_inside(const std::vector<Ring>& rings, const Frame& frame, const std::function<void(int, int, int)>& work) {
  // where the sides of the rings cross the middles of rows
  std::vector<std::pair<int, double>> crossings;
  const double cell = frame.cell.value();
  for (const Ring& ring : rings) {
    for (std::size_t i = 1; i < ring.size(); ++i) {
      const XY high = ring[i - 1].y > ring[i].y ? ring[i - 1] : ring[i];
      const XY low = ring[i - 1].y > ring[i].y ? ring[i] : ring[i - 1];
      const double north = std::floor((frame.corner.y - high.y) / cell - 0.5);
      const double south = std::ceil((frame.corner.y - low.y) / cell - 0.5);
      const int first = static_cast<int>(std::clamp(north, 0.0, static_cast<double>(frame.rows)));
      const int last = static_cast<int>(std::clamp(south, -1.0, frame.rows - 1.0));
      for (int row = first; row <= last; ++row) {
        const double y = frame.centre({row, 0}).y;
        if (high.y > y && low.y <= y)
          crossings.emplace_back(row, low.x + (high.x - low.x) * (y - low.y) / (high.y - low.y));
      }
    }
  }
  std::sort(crossings.begin(), crossings.end());
  for (std::size_t i = 1; i < crossings.size(); i += 2) {
    const auto column = [&](double x) {
      const double col = std::ceil((x - frame.corner.x) / cell - 0.5);
      return static_cast<int>(std::clamp(col, 0.0, static_cast<double>(frame.cols)));
    };
    const int first = column(crossings[i - 1].second), last = column(crossings[i].second);
    if (first < last) work(crossings[i].first, first, last);
  }
}

Grid<std::uint8_t> cells_inside(const Polygons& polygons, const Frame& frame) {
  Grid<std::uint8_t> inside(frame);
  runs_inside(rings_of(polygons), frame, [&](int row, int first, int last) {
    std::fill(inside.row(row).begin() + first, inside.row(row).begin() + last, std::uint8_t{1});
  });
  return inside;
}

}  // namespace castplan
