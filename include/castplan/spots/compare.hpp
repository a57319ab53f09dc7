// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "castplan/spots/spot.hpp"

namespace castplan {

/// What becomes of a spot from one plan to another of the same lake.
enum class Fate { stays, rises, falls, leaves, comes };
std::string_view name_of(Fate fate);  ///< "stays", "rises", "falls", "leaves", "comes"

/// A spot as it stands in one of the two plans.
struct Standing {
  std::string id;
  int rank{}, rank_low{}, rank_high{};
  double score{};
  XY boat;
};

struct SpotChange {
  Fate fate{};
  std::optional<Standing> before, after;  ///< none where the plan does not have the spot
  /// Each rank lies within the other's interval: the move is no more than the doubt of the ranks. False unless in both.
  bool within_doubt = false;
  std::string reason_words;  ///< of the plan that is compared, else of the other
};

/// Two spots are one when their boats, or what they fish at, lie so close: a cast and a step along the edge, and less
/// than half of the least distance between two spots of a plan. Design choice.
inline constexpr Metres kSamePlace(30);

/// Which spots of `before` stay, rise, fall or leave in `after`, and which come, on one lake's plane. Spots are matched
/// by place, never by rank: the closest pair within `kSamePlace` first, of equals the better ranks first, each spot
/// once. One stays when its rank is the same, rises when it is better (a smaller number), falls when it is worse.
/// Order: those of `before` by their rank, then those that come by theirs.
std::vector<SpotChange> compare_spots(std::span<const Spot> before, std::span<const Spot> after);

}  // namespace castplan
