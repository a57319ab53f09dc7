// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Plain geometry of casting; the names are those of the project's list of check values.
#include "castplan/spots/casting.hpp"

#include <catch2/catch.hpp>

using namespace castplan;

TEST_CASE("casting by plain geometry") {
  // CG-SECTOR: 30 m, but for the inner 5 m, over 120 degrees
  CHECK(fan_area(Metres(5), Metres(30), Degrees(120)).value() == Approx(916.298).margin(0.05));
  // CG-RATE: 30 m at 1 m/s, and 10 s
  const Seconds each = cast_time(Metres(30), MetresPerSecond(1), Seconds(10));
  CHECK(casts_per_hour(each) == Approx(90).margin(1e-6));
  // CG-DRIFT: 0.3 m/s, 40 s a cast
  CHECK(drift_between_casts(MetresPerSecond(0.3), each).value() == Approx(12).margin(1e-6));
  // CG-SWIM: Dombeck 1979 (abstract) saw 50.8 m a minute at most; no retrieve that is reckoned with outruns the fish
  CHECK(50.8 / 60 == Approx(0.84667).margin(1e-4));
  CHECK(kRetrieve.value() < 50.8 / 60);
  CHECK(kRetrieveCold < kRetrieve);
}
