// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "castplan/features/feature.hpp"
#include "castplan/write/plan.hpp"

namespace castplan {

/// "outer edge at 3.2 m (10.5 ft), predicted, could lie from 2.8 m to 5.6 m, density 60 % (thinned by steepness), ..."
std::string weed_line_words(const WeedLine& weed, Units units);

/// Of the whole lake: the edge of dense plants, its band, the last plants, and what was not looked at. Empty without.
std::string weed_depth_words(const Plan& plan);

}  // namespace castplan
