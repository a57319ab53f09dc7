// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string_view>

#include "castplan/grid/observations.hpp"

namespace castplan {

/// What no lake and no weather reaches; beyond it a table is wrong, or in other units.
struct Range {
  double least, most;
  [[nodiscard]] constexpr bool holds(double value) const { return value >= least && value <= most; }
};
inline constexpr Range kWaterRange{-2, 45}, kAirRange{-60, 55};  ///< C
inline constexpr Range kProfileDepth{0, 2000};                   ///< m
inline constexpr Range kOxygenRange{0, 40};                      ///< mg/l
inline constexpr Range kFromRange{0, 360};                       ///< degrees
inline constexpr Range kSpeedRange{0, kStrongestWind.value()};   ///< m/s

/// The dated tables that a lake file may name.
enum class SeriesKind { water, air, profile, wind };

struct SeriesColumn {
  std::string_view name;
  std::string_view unit;  ///< for people: "degrees Celsius of water"
  Range range;
  bool may_be_empty = false;  ///< or missing as a column
};

struct SeriesTable {
  SeriesKind kind;
  std::string_view time;  ///< its column
  bool hourly;            ///< moments of UTC, else dates
  bool every;             ///< a row a day or an hour is expected: what is missing is a gap
  bool once;              ///< each time once
  std::span<const SeriesColumn> columns;
};
const SeriesTable& series_table(SeriesKind kind);

}  // namespace castplan
