// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "castplan/features/detect.hpp"

namespace castplan {

/// Edges of a bed that somebody mapped: outside edges where the water deepens away from it, inside edges where it
/// shoals.
std::vector<Feature> edges_of_bed(const Ground& ground, const DetectOptions& options, const Ring& ring);

}  // namespace castplan
