// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/grid/isoline.hpp"

namespace castplan {

/// Gaussian mean of the known cells around each known cell (weights of unknown cells are left out and the rest
/// rescaled); unknown cells stay NaN. The window ends at three times sigma. Exact on a plane away from unknown cells.
Grid<Metres32> smoothed(const Grid<Metres32>& depth, Metres sigma);
Grid<Metres32> smoothed(const FieldRows& depth, Metres sigma);

}  // namespace castplan
