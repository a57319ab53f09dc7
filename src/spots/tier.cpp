// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/spots/tier.hpp"

namespace castplan {

std::string_view name_of(Tier tier) {
  switch (tier) {
    case Tier::start_here:
      return "start here";
    case Tier::next:
      return "next";
    case Tier::if_time:
      break;
  }
  return "if time";
}

Tier tier_of(const Spot& spot, std::size_t count) {
  // in thirds of a rank, so that nothing is rounded
  const auto thirds = [](int rank) { return 3 * static_cast<std::size_t>(rank); };
  if (spot.rank <= 1) return Tier::start_here;
  if (thirds(spot.rank) <= count && thirds(spot.rank_high) <= 2 * count) return Tier::start_here;
  if (thirds(spot.rank) > 2 * count && spot.rank_low > 1 && thirds(spot.rank_low) > count) return Tier::if_time;
  return Tier::next;
}

std::string_view tier_words() {
  return "Start here: the first, and those of the first third whose rank surely (90 %) lies in the first two thirds. "
         "If "
         "time: those of the last third whose rank surely lies below the first third. Next: all others.";
}

}  // namespace castplan
