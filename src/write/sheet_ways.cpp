// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/sheet_ways.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <queue>

#include "castplan/grid/distance.hpp"

namespace castplan::sheet {
namespace {

constexpr double kMostCells = 300.0;  // along the longer side
constexpr double kNoWater = 1e5;      // metres on top, where no water joins two places
constexpr double kOtherPart = 1e7;    // metres on top for each change of part: fewest changes come first
constexpr double kNever = 1e30;       // longer than any way
constexpr int kSearch = 8;            // cells around a place on the shore
constexpr float kFar = std::numeric_limits<float>::infinity();

Grid<Cover> coarse_cover(const Lake& lake) {
  const Frame& fine = lake.cover.frame();
  const double cell = std::max(fine.cell.value(), std::max(fine.rows, fine.cols) * fine.cell.value() / kMostCells);
  const auto count = [&](int cells) { return static_cast<int>(std::ceil(cells * fine.cell.value() / cell)); };
  Grid<Cover> out(Frame{fine.corner, Metres(cell), count(fine.rows), count(fine.cols)});
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = cover_at(lake, out.frame().centre(out.cell_of(i)));
  return out;
}

// The places of a whole order that ends at `last`: before[set][i] comes before i when the set has been visited.
std::vector<std::size_t> walked_back(const std::vector<std::vector<std::size_t>>& before, std::size_t last) {
  std::vector<std::size_t> order;
  for (std::size_t set = before.size() - 1; set != 0;) {
    order.push_back(last);
    const std::size_t previous = before[set][last];
    set ^= std::size_t{1} << last;
    last = previous;
  }
  std::reverse(order.begin(), order.end());
  return order;
}

}  // namespace

WaterWays::WaterWays(const Lake& lake)
    : cover_(coarse_cover(lake)),
      to_land_(distance_to(cover_.frame(), [this](Cell at) { return cover_[at] == Cover::land; })) {}

std::optional<std::size_t> WaterWays::water_near(XY at) const {
  const Frame& frame = cover_.frame();
  const Cell middle = frame.cell_at(at);
  std::optional<std::size_t> best;
  double nearest = kNever;
  for (int row = middle.row - kSearch; row <= middle.row + kSearch; ++row) {
    for (int col = middle.col - kSearch; col <= middle.col + kSearch; ++col) {
      const Cell cell{row, col};
      if (!frame.holds(cell) || cover_[cell] != Cover::water) continue;
      const double away = distance(at, frame.centre(cell)).value();
      if (away < nearest) best = cover_.index(cell);
      nearest = std::min(nearest, away);
    }
  }
  return best;
}

Way WaterWays::traced(std::size_t end, const std::vector<float>& cost, const std::vector<int>& before) const {
  Way out{cost[end], 0.0};
  double open = 0.0;
  for (std::size_t at = end; before[at] >= 0; at = static_cast<std::size_t>(before[at])) {
    const double step = cost[at] - cost[static_cast<std::size_t>(before[at])];
    open = to_land_[at] > Metres32(static_cast<float>(kFarFromLand.value())) ? open + step : 0.0;
    out.open = std::max(out.open, open);
  }
  return out;
}

std::vector<Way> WaterWays::from(XY start, const std::vector<XY>& ends) const {
  std::vector<float> cost(cover_.size(), kFar);
  std::vector<int> before(cover_.size(), -1);
  using Entry = std::pair<float, std::size_t>;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
  if (const auto first = water_near(start)) {
    cost[*first] = 0.0F;
    open.emplace(0.0F, *first);
  }
  const auto cell = static_cast<float>(cover_.frame().cell.value());
  while (!open.empty()) {
    const auto [sofar, at] = open.top();
    open.pop();
    if (sofar > cost[at]) continue;
    const Cell here = cover_.cell_of(at);
    for (int turn = 0; turn < 9; ++turn) {
      const Cell next{here.row + turn / 3 - 1, here.col + turn % 3 - 1};
      if (turn == 4 || !cover_.holds(next) || cover_[next] != Cover::water) continue;
      const float there = sofar + (turn % 2 == 0 ? cell * 1.41421356F : cell);
      const std::size_t index = cover_.index(next);
      if (there >= cost[index]) continue;
      cost[index] = there;
      before[index] = static_cast<int>(at);
      open.emplace(there, index);
    }
  }
  std::vector<Way> ways;
  for (const XY place : ends) {
    const auto end = water_near(place);
    const double straight = distance(start, place).value();
    ways.push_back(end && cost[*end] < kFar ? traced(*end, cost, before) : Way{straight + kNoWater, straight});
    ways.back().length = std::max(ways.back().length, straight);
  }
  return ways;
}

std::vector<std::size_t> running_order(const std::vector<int>& parts,
                                       const std::optional<std::vector<double>>& from_start,
                                       const std::vector<std::vector<double>>& between) {
  const std::size_t count = parts.size();
  assert(count <= 12);
  if (count == 0) return {};
  const auto home = [&](std::size_t i) { return from_start ? (*from_start)[i] : i == 0 ? 0.0 : kOtherPart * 100.0; };
  const auto home_again = [&](std::size_t i) { return from_start ? (*from_start)[i] : 0.0; };
  const std::size_t sets = std::size_t{1} << count;
  std::vector<std::vector<double>> best(sets, std::vector<double>(count, kNever));
  std::vector<std::vector<std::size_t>> before(sets, std::vector<std::size_t>(count, count));
  for (std::size_t i = 0; i < count; ++i) best[std::size_t{1} << i][i] = home(i);
  for (std::size_t set = 1; set < sets; ++set) {
    for (std::size_t last = 0; last < count; ++last) {
      if (best[set][last] >= kNever) continue;
      for (std::size_t next = 0; next < count; ++next) {
        const std::size_t more = set | std::size_t{1} << next;
        if (more == set) continue;
        const double there = best[set][last] + between[last][next] + (parts[last] == parts[next] ? 0.0 : kOtherPart);
        if (there >= best[more][next] - 1e-6) continue;
        best[more][next] = there;
        before[more][next] = last;
      }
    }
  }
  std::size_t last = 0;
  for (std::size_t i = 1; i < count; ++i) {
    if (best[sets - 1][i] + home_again(i) < best[sets - 1][last] + home_again(last) - 1e-6) last = i;
  }
  std::vector<std::size_t> order = walked_back(before, last);
  if (from_start && home(order.back()) < home(order.front())) std::reverse(order.begin(), order.end());
  return order;
}

}  // namespace castplan::sheet
