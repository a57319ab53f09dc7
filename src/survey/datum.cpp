// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "survey/datum.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace castplan::survey {
namespace {

/// Quarter of a cell: half a cell each way.
auto block_of(const Datum& datum) { return std::make_tuple(std::floor(2.0 * datum.y), std::floor(2.0 * datum.x)); }

auto order_of(const Datum& datum) {
  return std::make_tuple(std::floor(datum.y), std::floor(datum.x), std::floor(2.0 * datum.y), std::floor(2.0 * datum.x),
                         datum.y, datum.x, datum.depth, datum.weight);
}

Datum mean_of(Data::const_iterator first, Data::const_iterator last) {
  double weight = 0.0;
  double x = 0.0;
  double y = 0.0;
  double depth = 0.0;
  for (auto datum = first; datum != last; ++datum) {
    const auto w = static_cast<double>(datum->weight);
    weight += w;
    x += w * (datum->x - first->x);
    y += w * (datum->y - first->y);
    depth += w * static_cast<double>(datum->depth);
  }
  return {.x = first->x + x / weight,
          .y = first->y + y / weight,
          .depth = static_cast<float>(depth / weight),
          .weight = static_cast<float>(weight)};
}

}  // namespace

Data blocked(Data data) {
  std::sort(data.begin(), data.end(), [](const Datum& a, const Datum& b) { return order_of(a) < order_of(b); });
  data.erase(
      std::unique(data.begin(), data.end(), [](const Datum& a, const Datum& b) { return order_of(a) == order_of(b); }),
      data.end());
  std::size_t kept = 0;
  for (std::size_t first = 0; first < data.size();) {
    std::size_t last = first + 1;
    while (last < data.size() && block_of(data[last]) == block_of(data[first])) ++last;
    data[kept++] =
        mean_of(data.begin() + static_cast<std::ptrdiff_t>(first), data.begin() + static_cast<std::ptrdiff_t>(last));
    first = last;
  }
  data.resize(kept);
  return data;
}

}  // namespace castplan::survey
