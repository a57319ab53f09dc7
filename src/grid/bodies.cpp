// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "grid/bodies.hpp"

#include <algorithm>
#include <numeric>
#include <unordered_map>
#include <utility>

#include "castplan/grid/components.hpp"
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

void add_row(const Grid<Metres32>& values, const Grid<std::int32_t>& label, int row, SumsByLabel& sums) {
  Sums* current = nullptr;
  std::int32_t current_label = -1;
  for (int col = 0; col < values.cols(); ++col) {
    const Cell at{row, col};
    if (label[at] < 0) continue;
    if (label[at] != current_label) {
      current_label = label[at];
      current = &sums[current_label];
    }
    const float depth = values[at].value();
    ++current->cells;
    current->depths += static_cast<double>(depth);
    if (depth > current->deepest) {
      current->deepest = depth;
      current->at = at;
    }
  }
}

std::vector<Sums> sums_of(const Grid<Metres32>& values, const Components& groups) {
  std::vector<SumsByLabel> of_band(static_cast<std::size_t>(band_count(values.rows())));
  sweep(values.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      add_row(values, groups.label, row, of_band[static_cast<std::size_t>(band.number)]);
    }
  });
  std::vector<Sums> sums(static_cast<std::size_t>(groups.count));
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
  Components groups = components(values.frame(), [&](Cell at) { return cover[at] == Cover::water; });
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
  sweep(frame.rows, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (std::int32_t& label : groups.label.row(row)) label = label < 0 ? -1 : place[static_cast<std::size_t>(label)];
    }
  });
  result.body_of = std::move(groups.label);
  return result;
}

}  // namespace castplan
