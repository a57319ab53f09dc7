// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace castplan::survey {

/// Middle value, the lower of two. Requires at least one; the order of the values is changed.
inline double median(std::vector<double>& values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>((values.size() - 1) / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

/// 1.4826 times the median distance from the centre: the standard deviation, if the law is normal.
inline double robust_deviation(std::vector<double>& values, double centre) {
  for (double& value : values) value = std::abs(value - centre);
  return 1.4826 * median(values);
}

}  // namespace castplan::survey
