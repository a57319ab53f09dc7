// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "grid/bodies.hpp"

#include <algorithm>
#include <numeric>
#include <unordered_map>
#include <utility>

#include "castplan/grid/sweep.hpp"

namespace castplan {
namespace {

struct Sums {
  std::int64_t cells = 0;
  double depths = 0.0;  ///< metres, summed over cells
  float deepest = 0.0F;
  Cell at;  ///< the first of the deepest by row and column
};

using SumsByLabel = std::unordered_map<std::int32_t, Sums>;

void add_run(std::span<const Metres32> row, const GroupRun& run, int number, Sums& sums) {
  sums.cells += run.last - run.first;
  for (int col = run.first; col < run.last; ++col) {
    const float depth = row[static_cast<std::size_t>(col)].value();
    sums.depths += static_cast<double>(depth);
    if (depth > sums.deepest) {
      sums.deepest = depth;
      sums.at = {number, col};
    }
  }
}

std::vector<Sums> sums_of(const Grid<Metres32>& values, const Groups& groups) {
  std::vector<SumsByLabel> of_band(static_cast<std::size_t>(band_count(values.rows())));
  sweep(values.rows(), [&](const Band& band) {
    SumsByLabel& sums = of_band[static_cast<std::size_t>(band.number)];
    for (int row = band.first; row < band.last; ++row) {
      for (const GroupRun& run : groups.row(row)) add_run(values.row(row), run, row, sums[run.group]);
    }
  });
  std::vector<Sums> sums(static_cast<std::size_t>(groups.count()));
  for (const SumsByLabel& band : of_band) {
    // Each label stands once in a band, so the order within the table does not matter.
    for (const auto& [label, part] : band) {
      Sums& sum = sums[static_cast<std::size_t>(label)];
      sum.cells += part.cells;
      sum.depths += part.depths;
      if (part.deepest > sum.deepest) {
        sum.deepest = part.deepest;
        sum.at = part.at;
      }
    }
  }
  return sums;
}

}  // namespace

Bodies find_bodies(const Grid<Metres32>& values, const Grid<Cover>& cover) {
  Groups groups = groups_of(values.frame(), [&](int row, int first, std::span<std::uint8_t> out) {
    const auto covers = cover.row(row).subspan(static_cast<std::size_t>(first), out.size());
    std::transform(covers.begin(), covers.end(), out.begin(),
                   [](Cover is) { return static_cast<std::uint8_t>(is == Cover::water); });
  });
  const std::vector<Sums> sums = sums_of(values, groups);
  std::vector<std::size_t> order(sums.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return sums[a].cells > sums[b].cells; });

  Bodies result;
  const Frame& frame = values.frame();
  std::vector<std::int32_t> place(order.size());
  for (const std::size_t label : order) {
    const Sums& sum = sums[label];
    place[label] = static_cast<std::int32_t>(result.bodies.size());
    result.bodies.push_back({.area = frame.cell_area() * static_cast<double>(sum.cells),
                             .volume = frame.cell_area() * Metres(sum.depths),
                             .max_depth = Metres(static_cast<double>(sum.deepest)),
                             .deepest = frame.centre(sum.at)});
  }
  groups.number_anew(place);
  result.body_of = std::move(groups);
  return result;
}

}  // namespace castplan
