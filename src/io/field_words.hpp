// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "castplan/geo/quantity_text.hpp"

namespace castplan {

/// What a field's name says it holds.
enum class FieldRole { other, lon, lat, easting, northing, depth, height, elevation, track };

struct FieldMeaning {
  FieldRole role = FieldRole::other;
  int likeness = 0;                 ///< the lower, the plainer the word
  std::optional<DepthUnit> unit{};  ///< from a suffix: depth_ft, Depth (m)
};

/// Reads a name as plain words, whatever their case: "Depth_ft", "LONGITUDE", "depth [m]", "z".
FieldMeaning meaning_of(std::string_view name);

/// True when the name, or its last word ("deploy_lon"), says longitude or latitude.
bool says_degrees(std::string_view name);

/// The field that holds depths: the plainest word among those whose unit does not contradict the one given; one that
/// states its unit before one that leaves it open, when none is given. -1: none. also: the others that could be.
int depth_field(const std::vector<std::string>& names, std::optional<DepthUnit> given, std::vector<std::string>& also);

}  // namespace castplan
