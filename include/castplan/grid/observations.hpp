// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

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

}  // namespace castplan
