// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "publish/map_plane.hpp"
#include "publish/public_lake.hpp"

namespace castplan {

/// The map of a lake's page as SVG, drawn from lines alone. What only depths, public features and squares have made is
/// told as blocks. exact: nullptr, or what is marked as well.
std::string lake_map_svg(const PublicLake& lake, const ExactPlaces* exact, const MapPlane& plane,
                         std::vector<std::string>& blocks);

/// The legend of the kinds that are drawn, and of the depths.
std::string lake_legend_html(const PublicLake& lake, const ExactPlaces* exact);

}  // namespace castplan
