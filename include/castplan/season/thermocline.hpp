// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <span>

#include "castplan/geo/quantity.hpp"
#include "castplan/season/density.hpp"

namespace castplan {

/// Temperature at one depth of a profile.
struct TemperatureAtDepth {
  Metres depth;
  Celsius temperature;
};

/// Which step of a profile is meant: the steepest, or the one that lasts the season, which lies deeper on a calm day
/// when the sun has made a step of its own near the surface.
enum class Step { steepest, seasonal };

struct ThermoclineOptions {
  Step step = Step::seasonal;
  DensityFormula density = water_density;
  /// A profile with a smaller range is mixed. The cut-off of the open-source implementation of Read et al.; its value
  /// is from memory.
  CelsiusStep mixed_range = CelsiusStep(1.0);
  double peak_share = 0.15;     ///< a peak counts from this share of the steepest gradient,
  double least_gradient = 0.1;  ///< and from this many kg/m3 a metre
};

/// Depth of the thermocline in a measured profile, by the gradient of density, refined between the samples. levels: by
/// depth, strictly ascending, at least three. None in a mixed column, under ice or in other water that is coldest on
/// top (surface below 4 C and colder than the bottom), and where fewer than three levels are given. Where no peak
/// stands out, the seasonal step is the steepest one. The depth is known to about half the distance of two samples.
/// Throws InputError for levels that do not descend or are not numbers.
/// Source: Read et al. (2011), Environ. Model. Softw. 26, 1325-1336.
std::optional<Metres> thermocline_in(std::span<const TemperatureAtDepth> levels,
                                     const ThermoclineOptions& options = {});

/// A thermocline and the band that it lies in.
struct ThermoclineDepth {
  Metres expected, low, high;
};

/// Midsummer thermocline of a lake that was not measured: hanna_area() with a spread of a quarter either way, no deeper
/// than the lake. None where the lake is not that deep or, by its geometry ratio, mixes to the bottom: unstratified.
/// The spread and these two rules are design choices. area: of one water body, more than 0; max_depth: more than 0;
/// else InputError.
std::optional<ThermoclineDepth> predicted_thermocline(SquareMetres area, Metres max_depth);

/// The single formulas, for tests and for those who compare.
/// log10 z = 0.185 log10 A + 0.842, A in km2: Hanna (1990), Can. J. Fish. Aquat. Sci. 47, 894-898, as used in Prairie
/// et al. (2021).
Metres hanna_area(SquareMetres area);
/// log10 z = 0.336 log10 MEL - 0.245, greatest effective length in m: the same paper; coefficients from memory.
Metres hanna_length(Metres greatest_effective_length);
/// h = 2.0 sqrt(tau / (g drho)) sqrt(L): Gorham & Boyce (1989), J. Great Lakes Res. 15, 233-245, for lakes under 25
/// km2; stress of a late-summer storm in Pa.
Metres gorham_boyce(double storm_stress_pa, KilogramsPerCubicMetre density_step, Metres length);

}  // namespace castplan
