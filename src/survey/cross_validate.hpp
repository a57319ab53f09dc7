// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/survey/error.hpp"
#include "survey/fit.hpp"

namespace castplan::survey {

/// gap: the usual widest distance to data (a high quantile over the water), from which the squares' side follows.
/// Runs on a grid coarse enough to cost less than the surface itself.
CrossValidation cross_validate(const Sources& sources, const Polygons& shoreline, Metres gap, Metres tension_gap,
                               const SurfaceOptions& options);

}  // namespace castplan::survey
