// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// What becomes of spots, worked by hand on a plane in metres.
#include "castplan/spots/compare.hpp"

#include <catch2/catch.hpp>

using namespace castplan;

namespace {

Spot spot(int rank, XY boat, XY aim, int low = 1, int high = 9) {
  Spot out;
  out.id = "spot-" + std::to_string(rank);
  out.rank = rank;
  out.rank_low = low;
  out.rank_high = high;
  out.boat = boat;
  out.aim = aim;
  return out;
}

/// One whose boat and aim lie far from all others but each other.
Spot at(int rank, double x, int low = 1, int high = 9) { return spot(rank, {x, 0}, {x, 15}, low, high); }

std::vector<std::pair<Fate, std::pair<int, int>>> fates(const std::vector<Spot>& before,
                                                        const std::vector<Spot>& after) {
  std::vector<std::pair<Fate, std::pair<int, int>>> out;
  for (const SpotChange& change : compare_spots(before, after)) {
    out.push_back({change.fate, {change.before ? change.before->rank : 0, change.after ? change.after->rank : 0}});
  }
  return out;
}

using Fates = std::vector<std::pair<Fate, std::pair<int, int>>>;

}  // namespace

TEST_CASE("spots are held together by place and told apart by rank") {
  // in the order of the first plan; what only the second has comes last
  CHECK(fates({at(1, 0), at(2, 500), at(3, 1000), at(4, 1500)}, {at(1, 0), at(2, 1000), at(3, 500), at(4, 2000)}) ==
        Fates{{Fate::stays, {1, 1}},
              {Fate::falls, {2, 3}},
              {Fate::rises, {3, 2}},
              {Fate::leaves, {4, 0}},
              {Fate::comes, {0, 4}}});
  CHECK(fates({}, {}).empty());
  CHECK(fates({}, {at(1, 0)}) == Fates{{Fate::comes, {0, 1}}});
  CHECK(fates({at(1, 0)}, {}) == Fates{{Fate::leaves, {1, 0}}});
}

TEST_CASE("a place is the same within 30 m of boats or of aims") {
  CHECK(kSamePlace == Metres(30));
  CHECK(fates({spot(1, {0, 0}, {0, 20})}, {spot(1, {29, 0}, {99, 20})}) == Fates{{Fate::stays, {1, 1}}});
  CHECK(fates({spot(1, {0, 0}, {0, 20})}, {spot(1, {60, 20}, {29, 20})}) == Fates{{Fate::stays, {1, 1}}});
  CHECK(fates({spot(1, {0, 0}, {0, 20})}, {spot(1, {31, 0}, {31, 20})}) ==
        Fates{{Fate::leaves, {1, 0}}, {Fate::comes, {0, 1}}});
}

TEST_CASE("each spot has one partner, the closest first, of equals the better rank") {
  // both of the first plan lie within reach of the one of the second; the nearer takes it
  CHECK(fates({at(1, 0), at(2, 40)}, {at(1, 25)}) == Fates{{Fate::leaves, {1, 0}}, {Fate::rises, {2, 1}}});
  CHECK(fates({at(1, 0), at(2, 40)}, {at(1, 20)}) == Fates{{Fate::stays, {1, 1}}, {Fate::leaves, {2, 0}}});
  CHECK(fates({at(1, 20)}, {at(1, 0), at(2, 40)}) == Fates{{Fate::stays, {1, 1}}, {Fate::comes, {0, 2}}});
}

TEST_CASE("a move that both intervals hold is no more than the doubt of the ranks") {
  const auto doubt = [](const Spot& before, const Spot& after) {
    const auto changes = compare_spots(std::vector{before}, std::vector{after});
    REQUIRE(changes.size() == 1);
    return changes[0].within_doubt;
  };
  CHECK(doubt(at(2, 0, 1, 4), at(4, 0, 2, 6)));
  CHECK_FALSE(doubt(at(2, 0, 1, 3), at(4, 0, 2, 6)));  // 4 lies outside 1 to 3
  CHECK_FALSE(doubt(at(2, 0, 1, 4), at(4, 0, 3, 6)));  // 2 lies outside 3 to 6
  CHECK_FALSE(compare_spots(std::vector{at(1, 0)}, {}).at(0).within_doubt);
}
