// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/quantity.hpp"

namespace castplan {

/// Lake geometry ratio A^0.25 / zmax, in m^-0.5: small for deep narrow lakes. Formula: Gorham & Boyce (1989), as
/// restated in open-source lake models.
double geometry_ratio(SquareMetres area, Metres max_depth);

/// Whether a lake forms layers in summer by its geometry ratio: under 3 it does, over 5 wind mixes it to the bottom
/// again and again, between them it may be either. Both limits are from memory.
enum class Layering { stratifies, may_stratify, mixes };
Layering layering(SquareMetres area, Metres max_depth);

/// Second opinions on the same question; all from memory, and none decides anything here.
/// zmean / sqrt(A), m and km2: under 6 to 7 may mix in summer, over 9 stays layered. Osgood (1988).
double osgood_index(Metres mean_depth, SquareMetres area);
/// sqrt(A) / zmean, km2 and m: over 0.8 waves can stir the whole bed. Hakanson (1982); Bachmann et al. (2000).
double dynamic_ratio(SquareMetres area, Metres mean_depth);
/// 45.7 sqrt(A) / (21.4 + sqrt(A)), km2 to m: above this depth waves move the bed. Hakanson & Jansson (1983).
Metres wave_base(SquareMetres area);
/// How much later ice forms, in days, for so much more mean depth: 1.35 a metre (1.3 to 1.4). Adams & Stefan
/// (abstract).
double ice_on_delay(Metres extra_mean_depth);

}  // namespace castplan
