// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "castplan/write/plan.hpp"
#include "write/sheet_map.hpp"

namespace castplan::sheet {

/// A spot that the answer key shows.
struct KeyPlace {
  std::string label;  ///< its rank; before the season the letter of its phase
  std::size_t phase{};
  const Spot* spot{};
  std::vector<const Feature*> features;  ///< that make it, at most five
};

/// The six best spots; before the season the best of each phase; none at a stop.
std::vector<KeyPlace> key_places(const Plan& plan);

/// Their numbers; before the season letters that share a place share a box.
std::vector<Mark> key_marks(const Plan& plan, const std::vector<KeyPlace>& places);

/// The features that make these places, each once; without places one of each kind of landmark, of the surest the
/// one furthest from those before it.
std::vector<Lettered> key_features(const Plan& plan, const std::vector<KeyPlace>& places);

/// One small letter for a kind, as in the names of waypoints where those have one. Large letters are phases.
std::string_view key_letter(Kind kind);

}  // namespace castplan::sheet
