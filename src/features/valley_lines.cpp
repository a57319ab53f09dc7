// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/valley_lines.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "castplan/grid/sweep.hpp"

namespace castplan {

namespace {

constexpr double kRoundest = 0.7;  // of the greatest curvature: rounder than that is a hole, no valley
constexpr double kReach = 0.6;     // of a cell: half and a margin, so that no line is lost between two cells

/// One place of a valley, in the cell that it was found from.
struct Trough {
  std::size_t cell;
  XY at;
  XY along;  ///< unit vector, either way
  double curvature;
};

// The direction of greatest curvature of a symmetric second derivative, with that curvature: of depth, so negative in a
// valley. Closed form of the 2 x 2 eigenvalue.
std::optional<Trough> trough_at(const Grid<Metres32>& depth, Cell cell, double least) {
  const auto value = [&](int row, int col) {
    return static_cast<double>(depth[Cell{cell.row + row, cell.col + col}].value());
  };
  const double side = depth.frame().cell.value();
  const double n = value(-1, 0), s = value(1, 0), w = value(0, -1), e = value(0, 1), here = value(0, 0);
  const double xx = (e - 2 * here + w) / (side * side);
  const double yy = (n - 2 * here + s) / (side * side);
  const double xy = (value(-1, 1) - value(-1, -1) - value(1, 1) + value(1, -1)) / (4 * side * side);
  const double half = (xx + yy) / 2;
  const double spread = std::hypot((xx - yy) / 2, xy);
  const double across = half - spread;
  const double other = half + spread;
  // NaN anywhere in the window fails this
  if (!(across <= -least) || std::abs(other) > -kRoundest * across) return std::nullopt;
  const double angle = 0.5 * std::atan2(2 * xy, xx - yy) + M_PI / 2;
  const XY normal{std::cos(angle), std::sin(angle)};
  const XY rise{(e - w) / (2 * side), (n - s) / (2 * side)};
  const XY offset = normal * (-dot(rise, normal) / across);
  if (std::abs(offset.x) > kReach * side || std::abs(offset.y) > kReach * side) return std::nullopt;
  return Trough{depth.index(cell), depth.frame().centre(cell) + offset, {-normal.y, normal.x}, -across};
}

std::vector<Trough> troughs(const Grid<Metres32>& depth, double least) {
  std::vector<std::vector<Trough>> by_band(static_cast<std::size_t>(band_count(depth.rows())));
  sweep(depth.rows(), [&](const Band& band) {
    for (int row = std::max(1, band.first); row < std::min(band.last, depth.rows() - 1); ++row) {
      for (int col = 1; col + 1 < depth.cols(); ++col) {
        if (const auto found = trough_at(depth, {row, col}, least)) by_band[band.number].push_back(*found);
      }
    }
  });
  std::vector<Trough> all;
  for (const auto& part : by_band) all.insert(all.end(), part.begin(), part.end());
  return all;
}

/// Joins troughs of touching cells to lines.
class Linker {
 public:
  Linker(const Grid<Metres32>& depth, std::vector<Trough> troughs)
      : depth_(depth), troughs_(std::move(troughs)), used_(troughs_.size()) {}

  Lines lines() {
    std::vector<int> order(troughs_.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
    std::stable_sort(order.begin(), order.end(),
                     [&](int a, int b) { return troughs_[a].curvature > troughs_[b].curvature; });
    Lines found;
    for (const int start : order) {
      if (used_[start]) continue;
      take(start);
      Line line = followed(start, troughs_[start].along * -1);
      std::reverse(line.begin(), line.end());
      line.push_back(troughs_[start].at);
      const Line ahead = followed(start, troughs_[start].along);
      line.insert(line.end(), ahead.begin(), ahead.end());
      if (line.size() > 2) found.push_back(begun_at_north(std::move(line)));
    }
    return found;
  }

 private:
  int number_at(Cell at) const {
    if (!depth_.holds(at)) return -1;
    const std::size_t cell = depth_.index(at);
    const auto found = std::lower_bound(troughs_.begin(), troughs_.end(), cell,
                                        [](const Trough& trough, std::size_t of) { return trough.cell < of; });
    return found != troughs_.end() && found->cell == cell ? static_cast<int>(found - troughs_.begin()) : -1;
  }

  // A line is one cell wide: what lies beside a place of it, on the same valley, is the same place again.
  void take(int number) {
    const Trough& here = troughs_[number];
    used_[number] = true;
    const Cell at = depth_.cell_of(here.cell);
    for (int row = at.row - 1; row <= at.row + 1; ++row) {
      for (int col = at.col - 1; col <= at.col + 1; ++col) {
        const int beside = number_at({row, col});
        if (beside < 0 || used_[beside]) continue;
        if (std::abs(dot(troughs_[beside].at - here.at, here.along)) < 0.25 * depth_.frame().cell.value()) {
          used_[beside] = true;
        }
      }
    }
  }

  // The next place: nearest, and turning least (Steger's sum, a cell a radian).
  std::optional<int> next(int number, XY heading) const {
    const Trough& here = troughs_[number];
    const Cell at = depth_.cell_of(here.cell);
    std::optional<int> best;
    double best_cost = 0;
    for (int row = at.row - 1; row <= at.row + 1; ++row) {
      for (int col = at.col - 1; col <= at.col + 1; ++col) {
        const int there = number_at({row, col});
        if (there < 0 || there == number || used_[there]) continue;
        const XY step = troughs_[there].at - here.at;
        const double turn = std::acos(std::min(1.0, std::abs(dot(troughs_[there].along, here.along))));
        if (dot(step, heading) <= 0 || turn > M_PI / 4) continue;
        const double cost = std::hypot(step.x, step.y) / depth_.frame().cell.value() + turn;
        if (!best || cost < best_cost) {
          best = there;
          best_cost = cost;
        }
      }
    }
    return best;
  }

  Line followed(int number, XY heading) {
    Line line;
    while (const auto step = next(number, heading)) {
      number = *step;
      take(number);
      line.push_back(troughs_[number].at);
      const XY along = troughs_[number].along;
      heading = dot(along, heading) < 0 ? along * -1 : along;
    }
    return line;
  }

  const Grid<Metres32>& depth_;
  std::vector<Trough> troughs_;
  std::vector<bool> used_;
};

}  // namespace

Lines valley_lines(const Grid<Metres32>& depth, double least) {
  Lines lines = Linker(depth, troughs(depth, least)).lines();
  std::stable_sort(lines.begin(), lines.end(), [](const Line& a, const Line& b) {
    const Metres la = length(a), lb = length(b);
    if (la != lb) return la > lb;
    return a.front().y != b.front().y ? a.front().y > b.front().y : a.front().x < b.front().x;
  });
  return lines;
}

}  // namespace castplan
