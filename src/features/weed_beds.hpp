// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string_view>
#include <vector>

#include "castplan/features/detect.hpp"

namespace castplan {

/// All areas of a kind that somebody mapped.
Polygons areas_of(const Ground& ground, std::string_view kind);

/// Edges of a bed that somebody mapped: outside edges where the water deepens away from it, inside edges where it
/// shoals.
std::vector<Feature> edges_of_bed(const Ground& ground, const DetectOptions& options, const Ring& ring);

}  // namespace castplan
