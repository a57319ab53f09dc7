// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <vector>

#include "castplan/grid/lake.hpp"

namespace castplan::sheet {

/// A way over water from one place to another.
struct Way {
  double length{};  ///< metres; where no water joins the places, the straight line and much on top
  double open{};    ///< metres of its longest stretch that lies far from land
};
/// What counts as far: further than a tired swimmer gets in cold water. Design choice.
inline constexpr Metres kFarFromLand(100);

/// Shortest ways over water between places, on cells of the lake's own size or of a 300th of its longer side.
class WaterWays {
 public:
  explicit WaterWays(const Lake& lake);
  /// To each of the places, in their order. They may lie on the shore.
  [[nodiscard]] std::vector<Way> from(XY start, const std::vector<XY>& ends) const;

 private:
  [[nodiscard]] std::optional<std::size_t> water_near(XY at) const;
  [[nodiscard]] Way traced(std::size_t end, const std::vector<float>& cost, const std::vector<int>& before) const;

  Grid<Cover> cover_;
  Grid<Metres32> to_land_;
};

/// Order in which places are gone through from a start and back to it: those of one part of the lake follow each other,
/// and of all such orders it is the shortest; of its two directions the one whose first place is nearer. from_start:
/// the ways from the start, nothing where it is not known: then the order begins at the first place. between: from each
/// place to each. Exact, for at most 12 places.
std::vector<std::size_t> running_order(const std::vector<int>& parts,
                                       const std::optional<std::vector<double>>& from_start,
                                       const std::vector<std::vector<double>>& between);

}  // namespace castplan::sheet
