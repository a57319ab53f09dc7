// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/inspect_cells.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "castplan/grid/components.hpp"

namespace castplan {
namespace {

constexpr float kOutside = -std::numeric_limits<float>::infinity();

/// The 8 values around a cell; -infinity beyond the grid.
std::array<float, 8> around(const Grid<Metres32>& grid, Cell at) {
  std::array<float, 8> out{};
  std::size_t next = 0;
  for (int dr = -1; dr <= 1; ++dr) {
    for (int dc = -1; dc <= 1; ++dc) {
      if (dr == 0 && dc == 0) continue;
      const Cell beside{at.row + dr, at.col + dc};
      out[next++] = grid.holds(beside) ? grid[beside].value() : kOutside;
    }
  }
  return out;
}

struct Gathered {
  Block block;
  std::vector<float> water;
  bool open = false;  // touches something else than water
};

std::vector<float> water_values(const Grid<Metres32>& depth) {
  std::vector<float> out;
  for (const Metres32 cell : depth.cells()) {
    if (cell.value() > 0) out.push_back(cell.value());
  }
  return out;
}

}  // namespace

std::vector<Block> shut_in(const Grid<Metres32>& depth, BlockKind kind) {
  const auto inside = [kind](float v) { return kind == BlockKind::zero ? v == 0 : std::isnan(v); };
  const Components found = components(depth.frame(), [&](Cell at) { return inside(depth[at].value()); });
  std::vector<Gathered> all(static_cast<std::size_t>(found.count));
  for (std::size_t i = 0; i < depth.size(); ++i) {
    if (found.label[i] < 0) continue;
    Gathered& one = all[static_cast<std::size_t>(found.label[i])];
    const Cell at = depth.cell_of(i);
    if (one.block.cells++ == 0) one.block.at = at;
    if (one.open) continue;
    for (const float v : around(depth, at)) {
      if (inside(v)) continue;
      if (v > 0) {
        one.water.push_back(v);
      } else {
        one.open = true;
      }
    }
  }
  std::vector<Block> out;
  for (Gathered& one : all) {
    if (one.open || one.water.empty()) continue;
    const auto middle = one.water.begin() + static_cast<std::ptrdiff_t>(one.water.size() / 2);
    std::nth_element(one.water.begin(), middle, one.water.end());
    one.block.around = *middle;
    out.push_back(one.block);
  }
  return out;
}

Flats flats(const Grid<Metres32>& depth) {
  long long water = 0;
  std::vector<float> flat;
  for (std::size_t i = 0; i < depth.size(); ++i) {
    const float v = depth[i].value();
    if (!(v > 0)) continue;
    ++water;
    const auto beside = around(depth, depth.cell_of(i));
    if (std::all_of(beside.begin(), beside.end(), [v](float other) { return other == v; })) flat.push_back(v);
  }
  if (flat.empty()) return {};
  Flats out;
  out.share = static_cast<double>(flat.size()) / static_cast<double>(water);
  std::sort(flat.begin(), flat.end());
  flat.erase(std::unique(flat.begin(), flat.end()), flat.end());
  out.levels = flat.size();
  if (out.levels > 1) {
    out.step =
        (static_cast<double>(flat.back()) - static_cast<double>(flat.front())) / static_cast<double>(out.levels - 1);
  }
  return out;
}

Levels levels(const Grid<Metres32>& depth) {
  std::vector<float> values = water_values(depth);
  std::sort(values.begin(), values.end());
  Levels out;
  std::ptrdiff_t most = 0;
  for (auto from = values.begin(); from != values.end();) {
    const auto to = std::upper_bound(from, values.end(), *from);
    ++out.count;
    if (to - from > most) {
      most = to - from;
      out.commonest = *from;
    }
    from = to;
  }
  if (most > 0) out.commonest_share = static_cast<double>(most) / static_cast<double>(values.size());
  return out;
}

std::vector<Spike> spikes(const Grid<Metres32>& depth, double least) {
  std::vector<Spike> out;
  for (std::size_t i = 0; i < depth.size(); ++i) {
    const float v = depth[i].value();
    if (!(v > 0)) continue;
    std::array<float, 8> beside = around(depth, depth.cell_of(i));
    if (std::any_of(beside.begin(), beside.end(), [](float other) { return !std::isfinite(other); })) continue;
    std::sort(beside.begin(), beside.end());
    // a cell outside the range of its neighbours: the median of the nine is then their fourth or fifth
    const double off = static_cast<double>(v) - static_cast<double>(v > beside[7] ? beside[4] : beside[3]);
    const double range = static_cast<double>(beside[7]) - static_cast<double>(beside[0]);
    if ((v > beside[7] || v < beside[0]) && std::fabs(off) > least && std::fabs(off) > 2 * range) {
      out.push_back({depth.cell_of(i), off});
    }
  }
  return out;
}

std::vector<DeeperShare> hypsography(const Grid<Metres32>& depth) {
  std::vector<float> values = water_values(depth);
  if (values.empty()) return {};
  std::sort(values.begin(), values.end());
  const double deepest = values.back();
  double step = std::pow(10.0, std::floor(std::log10(deepest)) - 1);
  for (const double factor : {1.0, 2.0, 5.0, 10.0}) {
    if (deepest / (step * factor) > 12) continue;
    step *= factor;
    break;
  }
  std::vector<DeeperShare> out;
  for (int i = 0; i * step < deepest; ++i) {
    const auto first = std::upper_bound(values.begin(), values.end(), static_cast<float>(i * step));
    out.push_back({i * step, static_cast<double>(values.end() - first) / static_cast<double>(values.size())});
  }
  return out;
}

}  // namespace castplan
