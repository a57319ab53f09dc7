// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// The rule of the tiers, worked by hand for nine spots: thirds end at ranks 3 and 6.
#include "castplan/spots/tier.hpp"

#include <catch2/catch.hpp>

using namespace castplan;

namespace {

Tier of(int rank, int low, int high, std::size_t count = 9) {
  Spot spot;
  spot.rank = rank;
  spot.rank_low = low;
  spot.rank_high = high;
  return tier_of(spot, count);
}

}  // namespace

TEST_CASE("the first is where to start, whatever its interval; the others by rank and interval") {
  CHECK(of(1, 1, 25) == Tier::start_here);
  CHECK(of(3, 1, 6) == Tier::start_here);
  CHECK(of(3, 1, 7) == Tier::next);
  CHECK(of(4, 1, 5) == Tier::next);
  CHECK(of(7, 4, 9) == Tier::if_time);
  CHECK(of(7, 3, 9) == Tier::next);
  CHECK(of(6, 5, 9) == Tier::next);
  CHECK(of(1, 1, 1, 1) == Tier::start_here);
  CHECK(of(2, 1, 2, 2) == Tier::next);
  CHECK(of(2, 2, 2, 2) == Tier::if_time);
  CHECK(name_of(Tier::start_here) == "start here");
  CHECK(name_of(Tier::next) == "next");
  CHECK(name_of(Tier::if_time) == "if time");
}

TEST_CASE("a narrower interval never makes a good spot wait longer") {
  for (int rank = 1; rank <= 10; ++rank) {
    for (int high = rank; high < 30; ++high) {
      for (int low = 1; low <= rank; ++low) {
        if (3 * rank <= 10) CHECK(of(rank, low, high, 10) <= of(rank, low, high + 1, 10));
        CHECK(of(rank, low, high, 10) <= of(rank + 1, low, high + 1, 10));
      }
    }
  }
}
