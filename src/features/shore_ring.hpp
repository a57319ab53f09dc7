// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "castplan/grid/lake.hpp"

namespace castplan {

/// True where any cell within a cell and a half of the place is unknown or off the map: a shore drawn there may be the
/// edge of the map.
bool beside_unknown(const Grid<Cover>& cover, XY place);

/// True where the straight way between two places of the shore runs over water, but for a cell and a half at its ends.
/// Unknown cells are never water.
bool over_water(const Grid<Cover>& cover, XY from, XY to);

/// A ring by the distance along it: places, and the area that a chord cuts off, in logarithmic time.
class ShoreRing {
 public:
  /// ring: closed, anticlockwise, with water on the left. Requires four points or more.
  explicit ShoreRing(const Ring& ring);
  [[nodiscard]] double length() const { return along_.back(); }
  /// along: metres from the first vertex; goes around where it lies beyond the length.
  [[nodiscard]] XY place(double along) const;
  /// Signed area between the ring from one place to a later one (at most a length further) and the chord back.
  [[nodiscard]] double cut_off(double from, double to) const;
  /// The ring from one place to a later one, both included.
  [[nodiscard]] Line part(double from, double to) const;

 private:
  [[nodiscard]] double swept(double along) const;  ///< twice the area seen from the first vertex, going around too

  Ring ring_;
  std::vector<double> along_;
  std::vector<double> twice_;
};

}  // namespace castplan
