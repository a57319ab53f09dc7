// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "castplan/grid/sweep.hpp"
#include "io/working_grid.hpp"

namespace castplan {
namespace {

constexpr int kStep = 16;  ///< cells between places that are transformed exactly

/// Source places of the target's cell centres, exact at every kStep-th.
class Lattice {
 public:
  Lattice(const PixelMap& map, const Projection& from, const Projection& to, const Frame& frame)
      : cols_(frame.cols / kStep + 2), nodes_(static_cast<std::size_t>(cols_) * (frame.rows / kStep + 2)) {
    const double unit = from.metres_per_unit();
    for (std::size_t i = 0; i < nodes_.size(); ++i) {
      const auto cols = static_cast<std::size_t>(cols_);
      const Cell cell{static_cast<int>(i / cols) * kStep, static_cast<int>(i % cols) * kStep};
      const XY plane = from.from_lonlat(to.to_lonlat(frame.centre(cell)));
      nodes_[i] = map.to_pixel(plane * (1 / unit));
    }
  }

  [[nodiscard]] XY at(Cell cell) const {
    const auto node = static_cast<std::size_t>(cell.row / kStep) * static_cast<std::size_t>(cols_) +
                      static_cast<std::size_t>(cell.col / kStep);
    const double down = static_cast<double>(cell.row % kStep) / kStep;
    const double across = static_cast<double>(cell.col % kStep) / kStep;
    const XY upper = nodes_[node] * (1 - across) + nodes_[node + 1] * across;
    const std::size_t below = node + static_cast<std::size_t>(cols_);
    const XY lower = nodes_[below] * (1 - across) + nodes_[below + 1] * across;
    return upper * (1 - down) + lower * down;
  }

 private:
  int cols_;
  std::vector<XY> nodes_;
};

/// Bilinear over the known ones of the four cells around a place in pixel coordinates.
double bilinear(const Grid<Metres32>& source, XY pixel) {
  const double x = pixel.x - 0.5;
  const double y = pixel.y - 0.5;
  const int left = static_cast<int>(std::floor(x));
  const int top = static_cast<int>(std::floor(y));
  double sum = 0;
  double weights = 0;
  for (int r = top; r <= top + 1; ++r) {
    for (int c = left; c <= left + 1; ++c) {
      if (!source.holds({r, c})) continue;
      const double value = source[Cell{r, c}].value();
      if (std::isnan(value)) continue;
      const double weight = (1 - std::fabs(x - c)) * (1 - std::fabs(y - r));
      sum += weight * value;
      weights += weight;
    }
  }
  return sum / weights;
}

float sampled(const Grid<Metres32>& source, XY pixel) {
  if (!(pixel.x >= 0 && pixel.y >= 0 && pixel.x < source.cols() && pixel.y < source.rows())) {
    return std::numeric_limits<float>::quiet_NaN();
  }
  const float nearest = source[Cell{static_cast<int>(pixel.y), static_cast<int>(pixel.x)}].value();
  if (std::isnan(nearest)) return nearest;
  const double value = bilinear(source, pixel);
  return static_cast<float>(nearest == 0 ? std::min(value, 0.0) : value);
}

}  // namespace

Grid<Metres32> warped(const Grid<Metres32>& source, const PixelMap& map, const Projection& from, const Projection& to,
                      const Frame& frame) {
  const Lattice lattice(map, from, to, frame);
  Grid<Metres32> out(frame);
  sweep(frame.rows, [&](const Band& band) {
    for (int r = band.first; r < band.last; ++r) {
      auto row = out.row(r);
      for (int c = 0; c < frame.cols; ++c) {
        row[static_cast<std::size_t>(c)] = Metres32(sampled(source, lattice.at({r, c})));
      }
    }
  });
  return out;
}

}  // namespace castplan
