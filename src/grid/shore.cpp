// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "grid/shore.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "castplan/grid/hot.hpp"
#include "castplan/grid/isoline.hpp"
#include "castplan/grid/sweep.hpp"

namespace castplan {
namespace {

constexpr std::array<Cell, 4> kSides = {Cell{-1, 0}, Cell{0, 1}, Cell{1, 0}, Cell{0, -1}};

/// Land that touches no water by a side bounds no line: any value below zero does.
constexpr float kFarLand = -1.0F;

/// Nearest that the shore comes to the centre of a water cell, in cells.
constexpr float kNearest = 0.05F;
constexpr float kSteepest = (1.0F - kNearest) / kNearest;

/// Rings of fewer vertices are measured as traced: smoothing would shrink them by more than it takes off the steps.
constexpr std::size_t kFewest = 16;

Cell operator+(Cell a, Cell b) { return {a.row + b.row, a.col + b.col}; }

bool is_water(const Grid<Cover>& cover, Cell at) { return cover.holds(at) && cover[at] == Cover::water; }

/// Height, negative, at the centre of a land cell, seen from the water beside it: near is the depth there, beyond the
/// depth one cell further from land.
float carried_on(float near, float beyond) {
  const float fall = beyond - near;
  const float carried = near - fall;
  if (carried < 0.0F) return carried;
  const bool surfaces_just_behind = near <= 1.25F * fall;
  return surfaces_just_behind ? -1e-3F * near : -near;
}

float land_value(const Grid<Metres32>& values, const Grid<Cover>& cover, Cell land) {
  float sum = 0.0F;
  float shallowest = std::numeric_limits<float>::infinity();
  int count = 0;
  for (const Cell side : kSides) {
    const Cell near = land + side;
    if (!is_water(cover, near)) continue;
    const float depth = values[near].value();
    const Cell beyond = near + side;
    sum += is_water(cover, beyond) ? carried_on(depth, values[beyond].value()) : -depth;
    shallowest = std::min(shallowest, depth);
    ++count;
  }
  if (count == 0) return kFarLand;
  const float own = values[land].value();
  const bool known = std::isfinite(own) && own < 0.0F;
  const float value = known ? own : sum / static_cast<float>(count);
  return std::max(value, -kSteepest * shallowest);
}

CASTPLAN_HOT void water_or_far_land(const Metres32* in, const Cover* cover, int count, Metres32* out) {
  for (int i = 0; i < count; ++i) {
    const float outside = cover[i] == Cover::land ? kFarLand : std::numeric_limits<float>::quiet_NaN();
    const float own = in[i].value();
    out[i] = Metres32(cover[i] == Cover::water ? own : outside);
  }
}

/// Whether any of the cells from `first` on is land, and any of it or its neighbours in three rows water.
CASTPLAN_HOT bool may_touch(const Cover* above, const Cover* here, const Cover* below, int first, int last) {
  int land = 0, water = 0;
  for (int i = first; i < last; ++i) {
    land |= static_cast<int>(here[i] == Cover::land);
    water |= static_cast<int>(above[i] == Cover::water) | static_cast<int>(here[i] == Cover::water) |
             static_cast<int>(below[i] == Cover::water);
  }
  return land != 0 && water != 0;
}

void shore_row(const Grid<Metres32>& values, const Grid<Cover>& cover, int row, std::span<Metres32> out) {
  constexpr int kPiece = 64;  // most pieces are water or land throughout
  const int cols = values.cols();
  const Cover* here = cover.row(row).data();
  const Cover* above = cover.row(std::max(row - 1, 0)).data();
  const Cover* below = cover.row(std::min(row + 1, cover.rows() - 1)).data();
  water_or_far_land(values.row(row).data(), here, cols, out.data());
  for (int first = 0; first < cols; first += kPiece) {
    const int last = std::min(first + kPiece, cols);
    if (!may_touch(above, here, below, std::max(first - 1, 0), std::min(last + 1, cols))) continue;
    for (int col = first; col < last; ++col) {
      if (here[col] == Cover::land)
        out[static_cast<std::size_t>(col)] = Metres32(land_value(values, cover, {row, col}));
    }
  }
}

}  // namespace

FieldRows shore_rows(const Grid<Metres32>& values, const Grid<Cover>& cover) {
  return {values.frame(), [&values, &cover](int row, std::vector<Metres32>& room) {
            shore_row(values, cover, row, room);
            return static_cast<const Metres32*>(room.data());
          }};
}

Grid<Metres32> shore_field(const Grid<Metres32>& values, const Grid<Cover>& cover) {
  Grid<Metres32> field(values.frame());
  sweep(values.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) shore_row(values, cover, row, field.row(row));
  });
  return field;
}

Metres smooth_length(const Line& line) {
  const bool ring = line.size() > 1 && line.front() == line.back();
  if (line.size() < 3 || (ring && line.size() <= kFewest)) return length(line);
  Line smooth;
  smooth.reserve(line.size());
  if (!ring) smooth.push_back(line.front());
  for (std::size_t i = 1; i + 1 < line.size(); ++i) {
    smooth.push_back((line[i - 1] + line[i] + line[i + 1]) * (1.0 / 3.0));
  }
  smooth.push_back(ring ? (line[line.size() - 2] + line.front() + line[1]) * (1.0 / 3.0) : line.back());
  if (ring) smooth.push_back(smooth.front());
  return length(smooth);
}

Shore trace_shore(const FieldRows& field) {
  Shore shore{.outline = area_above(field, 0.0F), .length = {}};
  for (const Line& line : isolines(field, 0.0F)) shore.length += smooth_length(line);
  return shore;
}

}  // namespace castplan
