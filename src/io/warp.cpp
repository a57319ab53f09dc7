// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <vector>

#include "castplan/grid/sample.hpp"
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
double bilinear_of_known(const Grid<Metres32>& source, XY pixel) {
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

/// Equal neighbours in water, as a share of all: more than this, and the raster is a stair, from rounding or from
/// taking the nearest cell of another raster. A curve through a stair overshoots at each step; one that levels it out
/// is taken then. Design choice.
constexpr double kStair = 0.03;

bool is_stair(const Grid<Metres32>& source) {
  std::vector<std::size_t> equal(static_cast<std::size_t>(band_count(source.rows()))), all(equal.size());
  sweep(source.rows(), [&](const Band& band) {
    const auto number = static_cast<std::size_t>(band.number);
    for (int r = band.first; r < band.last; ++r) {
      const auto row = source.row(r);
      for (std::size_t c = 1; c < row.size(); ++c) {
        if (!(row[c].value() > 0 && row[c - 1].value() > 0)) continue;
        ++all[number];
        equal[number] += row[c].value() == row[c - 1].value() ? 1 : 0;
      }
    }
  });
  const auto sum = [](const std::vector<std::size_t>& parts) {
    return static_cast<double>(std::accumulate(parts.begin(), parts.end(), static_cast<std::size_t>(0)));
  };
  return sum(equal) > kStair * sum(all);
}

float sampled(const Grid<Metres32>& source, XY pixel, Cubic kind) {
  if (!(pixel.x >= 0 && pixel.y >= 0 && pixel.x < source.cols() && pixel.y < source.rows())) {
    return std::numeric_limits<float>::quiet_NaN();
  }
  const float nearest = source[Cell{static_cast<int>(pixel.y), static_cast<int>(pixel.x)}].value();
  if (std::isnan(nearest)) return nearest;
  const double smooth = bicubic_at(source, pixel - XY{0.5, 0.5}, kind);
  if (smooth > 0) return static_cast<float>(smooth);
  const double value = bilinear_of_known(source, pixel);
  return static_cast<float>(nearest == 0 ? std::min(value, 0.0) : value);
}

}  // namespace

Grid<Metres32> warped(const Grid<Metres32>& source, const PixelMap& map, const Projection& from, const Projection& to,
                      const Frame& frame) {
  const Cubic kind = is_stair(source) ? Cubic::smoothing : Cubic::through;
  const Lattice lattice(map, from, to, frame);
  Grid<Metres32> out(frame);
  sweep(frame.rows, [&](const Band& band) {
    for (int r = band.first; r < band.last; ++r) {
      auto row = out.row(r);
      for (int c = 0; c < frame.cols; ++c) {
        row[static_cast<std::size_t>(c)] = Metres32(sampled(source, lattice.at({r, c}), kind));
      }
    }
  });
  return out;
}

}  // namespace castplan
