// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/fetch.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>

#include "castplan/grid/distance.hpp"
#include "castplan/grid/sweep.hpp"

namespace castplan {

namespace {

constexpr double kApart = kFetchSpacing.value() * std::numbers::pi / 180;
constexpr int kDirections = static_cast<int>(360 / kFetchSpacing.value());
constexpr int kMostUnknown = 6;  // of them, design choice
constexpr Metres kBlock(30);
constexpr Metres kLeftOut(30);

XY turned(XY way, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {way.x * c - way.y * s, way.x * s + way.y * c};
}

// Looks at the water every half cell; stride tells how much further the way is sure to be clear.
template <class Stride>
WaterAhead walk(const Lake& lake, XY from, XY way, const Stride& stride) {
  const double step = lake.depth.frame().cell.value() / 2;
  const auto last = static_cast<std::int64_t>(std::floor(kFarthestFetch.value() / step));
  for (std::int64_t i = 0; i <= last;) {
    const double out = static_cast<double>(i) * step;
    const XY at = from + way * out;
    const Cover cover = cover_at(lake, at);
    if (cover != Cover::water) return {out, cover == Cover::land};
    i += std::max<std::int64_t>(1, static_cast<std::int64_t>(std::floor(stride(at) / step)));
  }
  return {kFarthestFetch.value(), true};
}

// A rim of blocks beyond the frame, which are not water; blocks may reach over the frame's east and south side.
Frame blocks_of(const Frame& frame, int cells) {
  const double side = frame.cell.value() * cells;
  return {{frame.corner.x - side, frame.corner.y + side},
          Metres(side),
          (frame.rows + cells - 1) / cells + 2,
          (frame.cols + cells - 1) / cells + 2};
}

bool all_water(const Lake& lake, int first_row, int first_col, int cells) {
  if (first_row < 0 || first_col < 0) return false;
  if (first_row + cells > lake.cover.rows() || first_col + cells > lake.cover.cols()) return false;
  for (int row = first_row; row < first_row + cells; ++row) {
    const auto cover =
        lake.cover.row(row).subspan(static_cast<std::size_t>(first_col), static_cast<std::size_t>(cells));
    if (!std::all_of(cover.begin(), cover.end(), [](Cover each) { return each == Cover::water; })) return false;
  }
  return true;
}

// radial: the length of water along a unit vector; none where it is not known, and then nothing is.
template <class Radial>
std::optional<Metres> fetch_by(XY upwind, const Radial& radial) {
  std::array<Metres, kFetchRadials> lengths{};
  for (int i = 0; i < kFetchRadials; ++i) {
    const std::optional<Metres> length = radial(turned(upwind, (i - kFetchRadials / 2) * kApart));
    if (!length) return std::nullopt;
    lengths[static_cast<std::size_t>(i)] = *length;
  }
  return effective_fetch(lengths);
}

}  // namespace

std::optional<Metres> effective_fetch(const Lake& lake, XY at, XY upwind) {
  return fetch_by(upwind, [&](XY way) -> std::optional<Metres> {
    const WaterAhead water = walk(lake, at, way, [](XY) { return 0.0; });
    return water.known ? std::optional(Metres(water.length)) : std::nullopt;
  });
}

WindFetch::WindFetch(const Lake& lake) : lake_(&lake) {
  const Frame& frame = lake.cover.frame();
  const int cells = std::max(1, static_cast<int>(kBlock / frame.cell));
  Grid<std::uint8_t> shut(blocks_of(frame, cells));
  sweep(shut.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < shut.cols(); ++col) {
        shut[Cell{row, col}] = all_water(lake, (row - 1) * cells, (col - 1) * cells, cells) ? 0 : 1;
      }
    }
  });
  clear_ = distance_to(shut.frame(), [&](Cell at) { return shut[at] != 0; });
}

WaterAhead WindFetch::ahead(XY from, XY way) const {
  const double diagonal = clear_.frame().cell.value() * std::numbers::sqrt2;  // of half a block at both ends
  return walk(*lake_, from, way,
              [&](XY at) { return static_cast<double>(clear_[clear_.frame().cell_at(at)].value()) - diagonal; });
}

// Land soon after the water's end, across a strip that the survey left out.
bool WindFetch::land_follows(XY at, XY way) const {
  const double step = lake_->depth.frame().cell.value() / 2;
  for (double out = 0; out <= kLeftOut.value(); out += step) {
    const Cover cover = cover_at(*lake_, at + way * out);
    if (cover != Cover::unknown) return cover == Cover::land;
  }
  return false;
}

std::optional<double> WindFetch::radial(XY from, XY way) const {
  const WaterAhead water = ahead(from, way);
  return water.known ? std::optional(water.length) : std::nullopt;
}

std::optional<Metres> WindFetch::against(XY at, XY upwind) const {
  return fetch_by(upwind, [&](XY way) -> std::optional<Metres> {
    const WaterAhead water = ahead(at, way);
    if (!water.known && !land_follows(at + way * water.length, way)) return std::nullopt;
    return Metres(water.length);
  });
}

std::optional<Metres> WindFetch::greatest(XY at) const {
  std::array<Metres, kDirections + kFetchRadials - 1> lengths{};
  int unknown = 0;
  for (std::size_t i = 0; i < kDirections; ++i) {
    const XY way = turned({1, 0}, static_cast<double>(i) * kApart);
    const WaterAhead water = ahead(at, way);
    lengths[i] = Metres(water.length);
    unknown += water.known || land_follows(at + way * water.length, way) ? 0 : 1;
  }
  if (unknown > kMostUnknown) return std::nullopt;
  std::copy_n(lengths.begin(), kFetchRadials - 1, lengths.begin() + kDirections);
  Metres most(0);
  for (std::size_t i = 0; i < kDirections; ++i) {
    most = std::max(most, effective_fetch(std::span<const Metres>(lengths).subspan(i, kFetchRadials)));
  }
  return most;
}

}  // namespace castplan
