// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/niche.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "truth.hpp"

using namespace castplan;

TEST_CASE("thermal niche of the muskellunge") {
  const Celsius optimum(22.3);  // Cole & Bettoli 2014
  const auto check = [&](const char* id, double t) {
    const Truth row = truth(id);
    INFO(id);
    CHECK(row.inputs.find("T=" + std::to_string(static_cast<int>(t))) != std::string::npos);
    CHECK(std::abs(thermal_niche(optimum, Celsius(t)) - row.expected) <= row.tolerance);
  };
  check("SP-MUS-SUIT1", 24);
  check("SP-MUS-SUIT2", 19);
  check("SP-MUS-SUIT3", 27);
}

TEST_CASE("thermal niche is the same on both sides, 1 inside 2 C and 0 from 5 C") {
  for (double away = 0.0; away <= 12.0; away += 0.25) {
    const double warm = thermal_niche(Celsius(20), Celsius(20 + away));
    CHECK(warm == Approx(thermal_niche(Celsius(20), Celsius(20 - away))));
    CHECK(warm == Approx(away <= 2 ? 1.0 : away >= 5 ? 0.0 : (5 - away) / 3).margin(1e-12));
  }
}
