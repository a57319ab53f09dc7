// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/along.hpp"

#include <algorithm>
#include <cmath>

namespace castplan {

Along::Along(const Line& line) : line_(line), from_start_{0} {
  for (std::size_t i = 1; i < line_.size(); ++i) {
    from_start_.push_back(from_start_.back() + distance(line_[i - 1], line_[i]).value());
  }
}

std::size_t Along::segment(double from_start) const {
  const auto after = std::upper_bound(from_start_.begin() + 1, from_start_.end() - 1, from_start);
  return static_cast<std::size_t>(after - from_start_.begin()) - 1;
}

double Along::nearest(XY place) const {
  double least = HUGE_VAL, found = 0;
  for (std::size_t i = 1; i < line_.size(); ++i) {
    const XY at = nearest_on(place, line_[i - 1], line_[i]);
    const double away = distance(place, at).value();
    if (away >= least) continue;
    least = away;
    found = from_start_[i - 1] + distance(line_[i - 1], at).value();
  }
  return found;
}

XY Along::at(double from_start) const {
  const std::size_t i = segment(from_start);
  const double whole = from_start_[i + 1] - from_start_[i];
  const double share = whole > 0 ? std::clamp((from_start - from_start_[i]) / whole, 0.0, 1.0) : 0;
  return line_[i] + (line_[i + 1] - line_[i]) * share;
}

XY Along::heading(double from_start) const {
  const std::size_t i = segment(from_start);
  return unit(line_[i + 1] - line_[i]);
}

Line Along::part(double from, double to) const {
  Line out{at(from)};
  for (std::size_t i = 0; i < line_.size(); ++i) {
    if (from_start_[i] > from && from_start_[i] < to) out.push_back(line_[i]);
  }
  out.push_back(at(to));
  return out;
}

}  // namespace castplan
