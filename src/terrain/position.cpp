// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/position.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <limits>
#include <numbers>
#include <stdexcept>

#include "castplan/terrain/disc.hpp"
#include "terrain/disc_shape.hpp"

namespace castplan {
namespace {

constexpr int kDirections = 8;

// Table 3 of the paper: rows by how many lie lower, columns by how many lie higher; 0 where they cannot be.
constexpr std::array<std::array<std::uint8_t, 9>, 9> kForms{{{1, 1, 1, 8, 8, 9, 9, 9, 10},
                                                             {1, 1, 8, 8, 8, 9, 9, 9, 0},
                                                             {1, 4, 6, 6, 7, 7, 9, 0, 0},
                                                             {4, 4, 6, 6, 6, 7, 0, 0, 0},
                                                             {4, 4, 5, 6, 6, 0, 0, 0, 0},
                                                             {3, 3, 5, 5, 0, 0, 0, 0, 0},
                                                             {3, 3, 3, 0, 0, 0, 0, 0, 0},
                                                             {3, 3, 0, 0, 0, 0, 0, 0, 0},
                                                             {2, 0, 0, 0, 0, 0, 0, 0, 0}}};

/// Steepest angles seen along one direction, in degrees; zero or less where the floor only falls, or only rises.
struct Sight {
  double up = 0, down = 0;
};

Sight look(const Grid<Metres32>& depth, Cell from, int south, int east, Metres reach) {
  const double step = depth.frame().cell.value() * std::hypot(south, east);
  const auto own = static_cast<double>(depth[from].value());
  double steepest_up = -HUGE_VAL, steepest_down = -HUGE_VAL;
  for (int i = 1; i * step <= reach.value() + 1e-9; ++i) {
    const Cell at{from.row + i * south, from.col + i * east};
    if (!depth.holds(at)) break;
    const double rise = own - static_cast<double>(depth[at].value());  // less deep is higher
    if (std::isnan(rise)) continue;
    steepest_up = std::max(steepest_up, rise / (i * step));
    steepest_down = std::max(steepest_down, -rise / (i * step));
  }
  if (steepest_up == -HUGE_VAL) return {};
  const auto degrees = [](double grade) { return std::atan(grade) * 180 / std::numbers::pi; };
  return {degrees(steepest_up), degrees(steepest_down)};
}

/// Discs that reach over the edge of the map have fewer cells than others.
double cells_in_map(const DiscShape& shape, const Frame& frame, Cell at) {
  const bool inside = at.row >= shape.reach && at.col >= shape.reach && at.row + shape.reach < frame.rows &&
                      at.col + shape.reach < frame.cols;
  if (inside) return static_cast<double>(shape.cells);
  double count = 0;
  for (int away = -shape.reach; away <= shape.reach; ++away) {
    if (at.row + away < 0 || at.row + away >= frame.rows) continue;
    const int half = shape.half_width[static_cast<std::size_t>(std::abs(away))];
    count += std::min(at.col + half, frame.cols - 1) - std::max(at.col - half, 0) + 1;
  }
  return count;
}

}  // namespace

Grid<Metres32> position_index(const Grid<Metres32>& depth, Metres radius) {
  Grid<Metres32> out = disc_mean(depth, radius);
  Grid<Metres32> known(depth.frame());
  std::transform(depth.cells().begin(), depth.cells().end(), known.cells().begin(),
                 [](Metres32 d) { return Metres32(d == d ? 1.0F : 0.0F); });
  const Grid<Metres32> share = disc_mean(known, radius);
  const DiscShape shape(radius / depth.frame().cell);
  for (std::size_t i = 0; i < out.size(); ++i) {
    const double cells = cells_in_map(shape, depth.frame(), depth.cell_of(i));
    const double count = std::round(static_cast<double>(share[i].value()) * cells);
    const auto over = static_cast<double>(out[i].value()) - static_cast<double>(depth[i].value());
    out[i] = count > 1 ? Metres32(static_cast<float>(over * count / (count - 1)))
                       : Metres32(std::numeric_limits<float>::quiet_NaN());
  }
  return out;
}

int standardised(double value, double mean, double sd) { return static_cast<int>(100 * (value - mean) / sd + 0.5); }

std::string_view name_of(Form form) {
  static constexpr std::string_view kNames[] = {"flat",  "peak",   "ridge",     "shoulder", "spur",
                                                "slope", "hollow", "footslope", "valley",   "pit"};
  return kNames[static_cast<std::size_t>(form) - 1];
}

Form form_of(int lower, int higher) {
  if (lower < 0 || higher < 0 || lower + higher > kDirections) {
    throw std::invalid_argument("form_of: 0 or more directions lower and higher, at most 8 together");
  }
  return static_cast<Form>(kForms[static_cast<std::size_t>(lower)][static_cast<std::size_t>(higher)]);
}

Form form_at(const Grid<Metres32>& depth, Cell at, Metres reach, Degrees level) {
  if (!(depth[at] == depth[at])) return Form::flat;
  int lower = 0, higher = 0;
  for (int south = -1; south <= 1; ++south) {
    for (int east = -1; east <= 1; ++east) {
      if (south == 0 && east == 0) continue;
      const Sight sight = look(depth, at, south, east, reach);
      if (std::abs(sight.up - sight.down) <= level.value()) continue;
      (sight.up > sight.down ? higher : lower) += 1;
    }
  }
  return form_of(lower, higher);
}

}  // namespace castplan
