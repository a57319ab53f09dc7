// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/geo/shape.hpp"

namespace castplan {

/// A ring with fewer vertices, none of those left out further from it than the tolerance; keeps its first vertex and at
/// least four. It may cross itself or another ring where those ran closer together than the tolerance: to be checked.
/// Source: Douglas & Peucker (1973), Cartographica 10(2), 112-122.
Ring thinned(const Ring& ring, double tolerance);

}  // namespace castplan
