// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/weeds.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "castplan/geo/error.hpp"
#include "truth.hpp"

using namespace castplan;

namespace {

void check_row(const char* id, Metres (*formula)(Metres), int secchi) {
  const Truth row = truth(id);
  INFO(id);
  REQUIRE(row.inputs[3] == static_cast<char>('0' + secchi));
  CHECK(std::abs(formula(Metres(secchi)).value() - row.expected) <= row.tolerance);
}

}  // namespace

TEST_CASE("weed depth formulas give the published rows") {
  check_row("WL-CAF-1", caffrey_mean, 1);
  check_row("WL-CAF-2", caffrey_mean, 2);
  check_row("WL-CAF-4", caffrey_mean, 4);
  check_row("WL-CAFMAX-1", caffrey_envelope, 1);
  check_row("WL-CAFMAX-2", caffrey_envelope, 2);
  check_row("WL-CAFMAX-4", caffrey_envelope, 4);
  check_row("WL-CKA-1", chambers_kalff_a, 1);
  check_row("WL-CKA-2", chambers_kalff_a, 2);
  check_row("WL-CKA-4", chambers_kalff_a, 4);
  check_row("WL-CKB-1", chambers_kalff_b, 1);
  check_row("WL-CKB-2", chambers_kalff_b, 2);
  // 4 m: 4.025 m, from the same coefficients as printed in Croft-White et al. 2022
  CHECK(chambers_kalff_b(Metres(4)).value() == Approx(4.025).margin(0.001));
}

TEST_CASE("Chambers & Kalff take the logarithm to base 10") {
  // With the natural logarithm, and the slope where the intercept belongs, 4 m would give 10.1 m.
  const double wrong = std::pow(1.33 * std::log(4.0) + 1.33, 2);
  CHECK(wrong == Approx(10.1).margin(0.05));
  CHECK(chambers_kalff_a(Metres(4)).value() < 5.0);
}

TEST_CASE("the band of the weed depth holds the expected depth") {
  Metres before(0);
  for (int i = 0; i <= 970; ++i) {
    const Metres secchi(0.3 + 0.01 * i);
    const WeedDepth depth = weed_depth_from_secchi(secchi);
    INFO("Secchi " << secchi.value());
    CHECK(depth.low <= depth.expected);
    CHECK(depth.expected <= depth.high);
    CHECK(depth.expected == caffrey_mean(secchi));
    CHECK(depth.low > Metres(0));
    CHECK(depth.expected > before);  // clearer water, deeper weeds
    before = depth.expected;
  }
  const WeedDepth two = weed_depth_from_secchi(Metres(2));
  CHECK(std::abs(two.low.value() - truth("WL-CKB-2").expected) <= truth("WL-CKB-2").tolerance);
  CHECK(std::abs(two.high.value() - truth("WL-CAFMAX-2").expected) <= truth("WL-CAFMAX-2").tolerance);
}

TEST_CASE("very turbid water gives a small depth, not a growing one") {
  CHECK(chambers_kalff_b(Metres(0.01)).value() == 0.0);
  CHECK(weed_depth_from_secchi(Metres(0.01)).expected > Metres(0));
}

TEST_CASE("a Secchi depth that cannot be is refused") {
  for (const double bad : {0.0, -1.0, std::nan(""), std::numeric_limits<double>::infinity()}) {
    CHECK_THROWS_AS(weed_depth_from_secchi(Metres(bad)), InputError);
  }
}
