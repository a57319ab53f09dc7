// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/slope.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <numbers>

#include "castplan/grid/sweep.hpp"

namespace castplan {
namespace {

constexpr Degrees32 kUnknown{std::numeric_limits<float>::quiet_NaN()};
constexpr float kDegrees = static_cast<float>(180.0 / std::numbers::pi);

/// Arc tangent of 0 to 1, radians; absolute error below 2e-8 before rounding to float. A polynomial, because a call to
/// the library's would keep the loop over a row from running on several cells at once.
/// Source: Abramowitz & Stegun (1964), Handbook of Mathematical Functions, eq. 4.4.49.
inline float short_arc_tangent(float x) {
  const float s = x * x;
  float sum = 0.0028662257F;
  sum = sum * s - 0.0161657367F;
  sum = sum * s + 0.0429096138F;
  sum = sum * s - 0.0752896400F;
  sum = sum * s + 0.1065626393F;
  sum = sum * s - 0.1420889944F;
  sum = sum * s + 0.1999355085F;
  sum = sum * s - 0.3333314528F;
  return x + x * (s * sum);
}

/// Angle of a rise over a run, both 0 or more and not both 0; degrees, 0 to 90.
inline float angle(float rise, float run) {
  const bool steep = rise > run;
  const float arc = short_arc_tangent((steep ? run : rise) / (steep ? rise : run)) * kDegrees;
  return steep ? 90.0F - arc : arc;
}

/// Eight times the fall of the floor over one cell: of depth, towards the east and towards the north.
struct Fall {
  float east;
  float north;
};

inline Fall fall(const Metres32* above, const Metres32* here, const Metres32* below) {
  const auto z = [](const Metres32* row, int step) { return row[step].value(); };
  // The middle does not count in Horn's formula; times zero it still hands on that it is unknown.
  const float known = z(here, 0) * 0.0F;
  return {(z(above, 1) - z(above, -1)) + 2.0F * (z(here, 1) - z(here, -1)) + (z(below, 1) - z(below, -1)) + known,
          (z(above, -1) - z(below, -1)) + 2.0F * (z(above, 0) - z(below, 0)) + (z(above, 1) - z(below, 1)) + known};
}

template <class RowKernel>
Grid<Degrees32> over_rows(const Grid<Metres32>& depth, const RowKernel& kernel) {
  Grid<Degrees32> out(depth.frame(), kUnknown);
  sweep(depth.rows(), [&](const Band& band) {
    for (int row = std::max(band.first, 1); row < std::min(band.last, depth.rows() - 1); ++row) {
      kernel(depth.row(row - 1), depth.row(row), depth.row(row + 1), out.row(row));
    }
  });
  return out;
}

/// The ends of a row have no whole window.
void blank_ends(std::span<Degrees32> out) {
  if (out.empty()) return;
  out.front() = kUnknown;
  out.back() = kUnknown;
}

}  // namespace

void slope_row(std::span<const Metres32> above, std::span<const Metres32> here, std::span<const Metres32> below,
               Metres cell, std::span<Degrees32> out) {
  assert(above.size() == out.size() && here.size() == out.size() && below.size() == out.size());
  const float run = static_cast<float>(8.0 * cell.value());
  constexpr float kVertical = 90.0F;
  const float most = std::nextafter(kVertical, 0.0F);
  for (std::size_t i = 1; i + 1 < out.size(); ++i) {
    const Fall down = fall(&above[i], &here[i], &below[i]);
    const float degrees = angle(std::sqrt(down.east * down.east + down.north * down.north), run);
    out[i] = Degrees32(degrees > most ? most : degrees);
  }
  blank_ends(out);
}

void aspect_row(std::span<const Metres32> above, std::span<const Metres32> here, std::span<const Metres32> below,
                std::span<Degrees32> out) {
  assert(above.size() == out.size() && here.size() == out.size() && below.size() == out.size());
  for (std::size_t i = 1; i + 1 < out.size(); ++i) {
    const Fall down = fall(&above[i], &here[i], &below[i]);
    const float from_north = angle(std::abs(down.east), std::abs(down.north));  // 0 / 0 where flat: NaN
    const float on_east_half = down.north < 0.0F ? 180.0F - from_north : from_north;
    const float bearing = down.east < 0.0F ? 360.0F - on_east_half : on_east_half;
    out[i] = Degrees32(bearing >= 360.0F ? 0.0F : bearing);
  }
  blank_ends(out);
}

Grid<Degrees32> slope(const Grid<Metres32>& depth) {
  return over_rows(depth, [cell = depth.frame().cell](auto above, auto here, auto below, auto out) {
    slope_row(above, here, below, cell, out);
  });
}

Grid<Degrees32> aspect(const Grid<Metres32>& depth) {
  return over_rows(depth, [](auto above, auto here, auto below, auto out) { aspect_row(above, here, below, out); });
}

}  // namespace castplan
