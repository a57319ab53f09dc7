// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <optional>
#include <span>

#include "castplan/grid/lake.hpp"

namespace castplan {

/// Radials of the effective fetch: 15, 6 degrees apart, from 42 degrees left of the way that the wind comes from to 42
/// degrees right of it.
inline constexpr int kFetchRadials = 15;
inline constexpr Degrees kFetchSpacing{6};

/// Directions to look along from a place, true bearings, for wind from a direction (upwind, not downwind).
std::array<Degrees, kFetchRadials> fetch_bearings(Degrees wind_from);

/// Length of water that the wind works on, from the lengths of the 15 radials in their order: sum(F cos a) / sum(cos
/// a). Each ends at the first shore, islands included. Throws InputError for any other number of lengths and for
/// negative or unknown ones. Source: Shore Protection Manual, as in Rogala (1997), USGS UMESC Project Status Report
/// 97-08.
Metres effective_fetch(std::span<const Metres> radials);
inline constexpr Metres kFarthestFetch(30000);  ///< radials over a lake stop there

/// Other forms, for tests and for those who compare.
Metres projected_fetch(std::span<const Metres> radials);  ///< sum(F cos^2 a) / sum(cos a), Saville et al. (1962)
Metres mean_fetch(std::span<const Metres> radials);       ///< plain mean, nine radials: from memory, USACE (1984)

/// Effective fetch over the water of a lake for wind from a direction (a unit vector pointing upwind). Radials end at
/// the first land, islands included; none where one meets the unknown or the map's edge first.
std::optional<Metres> effective_fetch(const Lake& lake, XY at, XY upwind);

/// How far water goes on, and what ends it.
struct WaterAhead {
  double length{};  ///< metres
  bool known{};     ///< false: the unknown or the map's edge, not land
};

/// The same for many places: open water is passed in strides as long as it is sure to be clear, with the same outcome.
class WindFetch {
 public:
  /// Makes the map of the strides, on blocks of 30 m or a cell.
  explicit WindFetch(const Lake& lake);

  /// The greatest effective fetch over all directions, 6 degrees apart. A radial that meets the unknown counts as far
  /// as it goes: a survey often leaves out a few places at the shore. None where more than a tenth of all do, and no
  /// land follows within 30 m.
  [[nodiscard]] std::optional<Metres> greatest(XY at) const;

  /// Effective fetch for wind from a direction (a unit vector pointing upwind). None where a radial meets the unknown
  /// and no land follows within 30 m.
  [[nodiscard]] std::optional<Metres> against(XY at, XY upwind) const;

  /// Water from a place to the first land along a unit vector; none where the map ends first.
  [[nodiscard]] std::optional<double> radial(XY from, XY way) const;

 private:
  [[nodiscard]] WaterAhead ahead(XY from, XY way) const;
  [[nodiscard]] bool land_follows(XY at, XY way) const;

  const Lake* lake_;
  Grid<Metres32> clear_;  ///< from a block's middle to that of the nearest one that is not all water
};

}  // namespace castplan
