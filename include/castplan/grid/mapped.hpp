// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>

#include "castplan/geo/shape.hpp"

namespace castplan {

/// What the user's own layers say about the lake, on the working grid's plane.

/// Wood, rock, weeds, dock, inflow, cover, hazard.
struct MappedStructure {
  std::string kind;         ///< one of the lake file's structure kinds
  std::string name;         ///< empty where the layer has none
  std::string attribute;    ///< inflow: cool, warm or unknown; hazard: what was mapped
  std::string source_file;  ///< file name without its folder
  Geometry geometry;
};

struct MappedClosure {
  std::string kind;  ///< no-entry, no-fishing, no-wake, electric-only
  std::string name;
  std::string from, to;  ///< MM-DD, both or neither
  std::string source_file;
  Geometry geometry;   ///< with its buffer
  bool active = true;  ///< on the planned date; with no date it counts as active
};

struct MappedLaunch {
  std::string name;
  std::optional<Metres> usable_above;  ///< elevation of the water surface
  XY place;
  bool dry = false;  ///< today's surface is below usable_above
};

}  // namespace castplan
