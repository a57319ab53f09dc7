// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

#include "castplan/geo/shape.hpp"

namespace castplan {

/// A line asked by the distance from its start. Requires two places or more.
class Along {
 public:
  explicit Along(const Line& line);
  [[nodiscard]] double length() const { return from_start_.back(); }
  [[nodiscard]] double nearest(XY place) const;  ///< distance from the start to what is nearest to a place
  [[nodiscard]] XY at(double from_start) const;
  [[nodiscard]] XY heading(double from_start) const;      ///< of the segment there, length 1
  [[nodiscard]] Line part(double from, double to) const;  ///< from < to

 private:
  [[nodiscard]] std::size_t segment(double from_start) const;  ///< number of its first vertex
  Line line_;
  std::vector<double> from_start_;
};

}  // namespace castplan
