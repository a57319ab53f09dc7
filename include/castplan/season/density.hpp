// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/quantity.hpp"

namespace castplan {

struct KilogramPerCubicMetreUnit;
using KilogramsPerCubicMetre = Quantity<KilogramPerCubicMetreUnit>;

/// Density of air-free fresh water at one atmosphere, greatest near 4 C. Valid for 0 to 40 C; colder and warmer
/// temperatures follow the same formula. NaN for NaN.
/// Source: Tanaka et al. (2001), Metrologia 38, 301-309; coefficients as restated in open-source codes.
KilogramsPerCubicMetre water_density(Celsius temperature);

/// The same by Martin & McCutcheon (1999) and by Kell (1975), for tests and for those who compare. The first lies 0.025
/// to 0.030 kg/m3 higher, with the same differences between two temperatures.
KilogramsPerCubicMetre martin_mccutcheon_density(Celsius temperature);
KilogramsPerCubicMetre kell_density(Celsius temperature);

using DensityFormula = KilogramsPerCubicMetre (*)(Celsius);

}  // namespace castplan
