// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "castplan/survey/error.hpp"

namespace castplan::survey {

struct Residual {
  double distance;  ///< metres, to the nearest datum that was not held back
  double depth;     ///< metres, held back
  double error;     ///< metres, surface less that
};

/// Counts, moments and percentiles, over all and by depth.
CrossValidation summary_of(const std::vector<Residual>& residuals);

/// For bands of distance with equal numbers of residuals: the 90th percentile of their size over 1.645, which is the
/// standard error of a normal law with that percentile; then the nearest curve that never falls (pooled neighbours:
/// Ayer et al. 1955, Ann. Math. Stat. 26, 641-647).
ErrorCurve curve_of(std::vector<Residual> residuals, Metres least);

}  // namespace castplan::survey
