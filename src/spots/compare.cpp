// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/spots/compare.hpp"

#include <algorithm>
#include <tuple>

namespace castplan {

namespace {

struct Pair {
  Metres apart;
  int rank_before, rank_after;
  std::size_t before, after;
};

std::vector<Pair> close_pairs(std::span<const Spot> before, std::span<const Spot> after) {
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < before.size(); ++i) {
    for (std::size_t j = 0; j < after.size(); ++j) {
      const Metres apart = std::min(distance(before[i].boat, after[j].boat), distance(before[i].aim, after[j].aim));
      if (apart <= kSamePlace) pairs.push_back({apart, before[i].rank, after[j].rank, i, j});
    }
  }
  std::sort(pairs.begin(), pairs.end(), [](const Pair& a, const Pair& b) {
    return std::tie(a.apart, a.rank_before, a.rank_after) < std::tie(b.apart, b.rank_before, b.rank_after);
  });
  return pairs;
}

Standing standing(const Spot& spot) {
  return {spot.id, spot.rank, spot.rank_low, spot.rank_high, spot.score, spot.boat};
}

bool holds(const Spot& spot, int rank) { return rank >= spot.rank_low && rank <= spot.rank_high; }

SpotChange change(const Spot& before, const Spot& after) {
  const Fate fate = after.rank == before.rank ? Fate::stays : after.rank < before.rank ? Fate::rises : Fate::falls;
  return {fate, standing(before), standing(after), holds(before, after.rank) && holds(after, before.rank),
          before.reason_words};
}

}  // namespace

std::string_view name_of(Fate fate) {
  switch (fate) {
    case Fate::stays:
      return "stays";
    case Fate::rises:
      return "rises";
    case Fate::falls:
      return "falls";
    case Fate::leaves:
      return "leaves";
    case Fate::comes:
      return "comes";
  }
  return {};
}

std::vector<SpotChange> compare_spots(std::span<const Spot> before, std::span<const Spot> after) {
  std::vector<const Spot*> partner(before.size(), nullptr);
  std::vector<bool> taken(after.size(), false);
  for (const Pair& pair : close_pairs(before, after)) {
    if (partner[pair.before] != nullptr || taken[pair.after]) continue;
    partner[pair.before] = &after[pair.after];
    taken[pair.after] = true;
  }
  std::vector<SpotChange> changes;
  for (std::size_t i = 0; i < before.size(); ++i) {
    changes.push_back(partner[i] != nullptr
                          ? change(before[i], *partner[i])
                          : SpotChange{Fate::leaves, standing(before[i]), std::nullopt, false, before[i].reason_words});
  }
  for (std::size_t j = 0; j < after.size(); ++j) {
    if (!taken[j]) {
      changes.push_back({Fate::comes, std::nullopt, standing(after[j]), false, after[j].reason_words});
    }
  }
  return changes;
}

}  // namespace castplan
