// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "castplan/geo/quantity.hpp"
#include "castplan/grid/lake.hpp"
#include "castplan/season/density.hpp"
#include "castplan/season/thermocline.hpp"

namespace castplan {

/// Area of a lake at one depth: of all water deeper than that.
struct AreaAtDepth {
  Metres depth;
  SquareMetres area;
};

/// Areas of the largest water body, surface first, in steps of at most a metre and at most a twentieth of its greatest
/// depth; the last area is 0. Counted in whole cells.
std::vector<AreaAtDepth> hypsography(const Lake& lake);

struct DensityAtDepth {
  Metres depth;
  KilogramsPerCubicMetre density;
};

struct JoulePerSquareMetreUnit;
using JoulesPerSquareMetre = Quantity<JoulePerSquareMetreUnit>;

/// Work that it takes to mix a lake, per square metre of its surface: g / A0 times the integral of (z - zv) rho A over
/// the depth, zv the depth of the centre of volume. 0 for a mixed column; negative where heavy water lies on top.
/// areas and densities: by depth, ascending, straight lines between them (two densities at one depth are a step);
/// beyond their ends densities stay as they are. The integral is exact. Throws InputError for fewer than two areas,
/// none above 0, depths that do not ascend, no density, or values that are not numbers. Source: Idso (1973), Limnol.
/// Oceanogr. 18, 681-683, as in Read et al. (2011); g = 9.81 m/s2.
JoulesPerSquareMetre schmidt_stability(std::span<const AreaAtDepth> areas, std::span<const DensityAtDepth> densities);
/// The same with the densities of these temperatures, straight lines between the densities as in the source.
JoulesPerSquareMetre schmidt_stability(std::span<const AreaAtDepth> areas, std::span<const TemperatureAtDepth> levels,
                                       DensityFormula density = water_density);
/// The same for a warm layer on a cold one.
JoulesPerSquareMetre two_layer_stability(std::span<const AreaAtDepth> areas, Metres step, Celsius above, Celsius below);

/// How the stability holds against wind: over 1 the layers withstand it, under 1 it stirs the cold water up from the
/// bottom. S zt / (rho u*^2 sqrt(A0) zv): zt the thermocline, zv the centre of volume, u* the friction velocity in the
/// water, from 1.2 kg/m3 of air and a drag of 0.0013. Infinite without wind. Throws InputError as schmidt_stability
/// does. Source: Imberger & Patterson (1990) in the form of Read et al. (2011); the constants are from memory.
double lake_number(std::span<const AreaAtDepth> areas, JoulesPerSquareMetre stability, Metres thermocline,
                   MetresPerSecond wind);

/// Where a lake stands between its seasons.
enum class Mixing { layered, turning_over, mixed };
std::string_view name_of(Mixing mixing);  ///< "layered", "turning over", "mixed"

/// A usual wind of the days on a lake, m/s at 10 m: a design choice.
inline constexpr MetresPerSecond kUsualWind{4};

/// By the lake number of a usual wind, whatever the temperature: layered from 1, mixed under 0.1, turning over (or only
/// layering) between. Design choice.
Mixing mixing_of(double lake_number);

/// The same without a profile: the water below the thermocline may have any temperature from `coldest_below` to
/// `warmest_below`, no warmer than the surface. Layered or mixed only where all of them agree, else turning over. Two
/// layers with a sharp step are at least as stable as what the lake really has.
Mixing mixing_without_profile(std::span<const AreaAtDepth> areas, Metres thermocline, Celsius surface,
                              Celsius coldest_below, Celsius warmest_below, MetresPerSecond wind = kUsualWind);

/// Temperature of the bottom water in summer from the mean air temperature of the coldest month: 0.6565 T + 10.7 above
/// 1.4 C, else 0.2345 T + 10.11. Prairie et al. (2021), G-res, eq. A.2.
Celsius bottom_temperature(Celsius coldest_month);

}  // namespace castplan
