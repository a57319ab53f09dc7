// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/mixing.hpp"

#include <cmath>

namespace castplan {
namespace {

constexpr double kStratifiesBelow = 3.0;  // from memory
constexpr double kMixesAbove = 5.0;       // from memory

double root_km2(SquareMetres area) { return std::sqrt(area.value() * 1e-6); }

}  // namespace

double geometry_ratio(SquareMetres area, Metres max_depth) { return std::pow(area.value(), 0.25) / max_depth.value(); }

Layering layering(SquareMetres area, Metres max_depth) {
  const double ratio = geometry_ratio(area, max_depth);
  if (ratio < kStratifiesBelow) return Layering::stratifies;
  return ratio > kMixesAbove ? Layering::mixes : Layering::may_stratify;
}

double osgood_index(Metres mean_depth, SquareMetres area) { return mean_depth.value() / root_km2(area); }

double dynamic_ratio(SquareMetres area, Metres mean_depth) { return root_km2(area) / mean_depth.value(); }

Metres wave_base(SquareMetres area) { return Metres(45.7 * root_km2(area) / (21.4 + root_km2(area))); }

double ice_on_delay(Metres extra_mean_depth) { return 1.35 * extra_mean_depth.value(); }

}  // namespace castplan
