// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/world_grid.hpp"

#include <algorithm>
#include <cmath>

namespace castplan {
namespace {

constexpr long long kBase = 1250;  // millionths of a degree
constexpr long long kHalfTurn = 180'000'000, kTurn = 360'000'000, kQuarterTurn = 90'000'000;
constexpr double kMeridianDegree = 110574.0;  // metres, the shortest
constexpr double kParallelDegree = 111319.49;
constexpr double kRadians = 3.14159265358979323846 / 180.0;

// The smallest step, a power of two of the base, whose length is enough; `most` where none is.
long long step_for(double least, double metres_a_degree, long long most) {
  long long step = kBase;
  while (step < most && static_cast<double>(step) / 1e6 * metres_a_degree < least) step *= 2;
  return std::min(step, most);
}

}  // namespace

WorldGrid::WorldGrid(Metres least)
    : least_(least), latitude_step_(step_for(least.value(), kMeridianDegree, kHalfTurn)) {}

long long WorldGrid::rows() const { return kHalfTurn / latitude_step_; }

long long WorldGrid::longitude_step(long long row) const {
  const long long south = row * latitude_step_ - kQuarterTurn;
  const long long north = row + 1 == rows() ? kQuarterTurn : south + latitude_step_;
  const double latitude = static_cast<double>(std::max(std::abs(south), std::abs(north))) / 1e6;
  return step_for(least_.value(), kParallelDegree * std::max(0.0, std::cos(latitude * kRadians)), kTurn);
}

long long WorldGrid::columns(long long row) const { return std::max(1LL, kTurn / longitude_step(row)); }

long long WorldGrid::column_at(long long row, long long lon) const {
  return std::clamp((lon + kHalfTurn) / longitude_step(row), 0LL, columns(row) - 1);
}

WorldCell WorldGrid::cell_of(LonLat place) const {
  const long long lat = std::llround(place.lat.degrees * 1e6);
  long long lon = std::llround(place.lon.degrees * 1e6);
  if (lon >= kHalfTurn) lon -= kTurn;
  const long long row = std::clamp((lat + kQuarterTurn) / latitude_step_, 0LL, rows() - 1);
  return {row, column_at(row, lon)};
}

CellEdges WorldGrid::edges(WorldCell cell) const {
  const long long step = longitude_step(cell.row);
  CellEdges out;
  out.south = cell.row * latitude_step_ - kQuarterTurn;
  out.north = cell.row + 1 == rows() ? kQuarterTurn : out.south + latitude_step_;
  out.west = cell.column * step - kHalfTurn;
  out.east = cell.column + 1 == columns(cell.row) ? kHalfTurn : out.west + step;
  return out;
}

void WorldGrid::add_row(std::vector<WorldCell>& out, long long row, const CellEdges& beside) const {
  if (row < 0 || row >= rows()) return;
  const long long last = column_at(row, beside.east - 1);
  for (long long column = column_at(row, beside.west); column <= last; ++column) out.push_back({row, column});
}

std::vector<WorldCell> WorldGrid::neighbours(WorldCell cell) const {
  std::vector<WorldCell> out;
  const CellEdges own = edges(cell);
  const long long count = columns(cell.row);
  add_row(out, cell.row - 1, own);
  if (count > 1) out.push_back({cell.row, (cell.column + count - 1) % count});
  if (count > 2) out.push_back({cell.row, (cell.column + 1) % count});
  add_row(out, cell.row + 1, own);
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace castplan
