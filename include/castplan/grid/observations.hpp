// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <optional>
#include <string>

#include "castplan/geo/quantity.hpp"

namespace castplan {

/// One plant sample: a depth below today's surface, and whether a rooted plant was there.
struct PlantSample {
  Metres depth;
  bool present{};
};

/// One reading of a dated water temperature series.
struct DatedTemperature {
  std::string date;  ///< YYYY-MM-DD
  Celsius temperature;
};

/// One level of a dated profile of the water.
struct ProfileReading {
  std::string date;  ///< YYYY-MM-DD
  Metres depth;      ///< below the surface of that day
  Celsius temperature;
  std::optional<double> oxygen_mg_l;
};

/// Wind at 10 m over open ground or water. gust: no weaker than the speed where none was given.
struct Wind {
  MetresPerSecond speed;
  MetresPerSecond gust;
  Degrees from;  ///< true bearing that it blows from, [0, 360)
};

/// One hour of a forecast or of a station.
inline constexpr MetresPerSecond kStrongestWind{75};  ///< no storm on a lake is stronger
struct WindReading {
  std::chrono::sys_seconds time;
  Wind wind;
};

}  // namespace castplan
