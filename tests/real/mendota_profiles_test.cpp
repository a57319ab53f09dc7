// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Lake Mendota, Wisconsin: temperature profiles of 2010 and later, sample data of the package glmtools (USGS).
#include "real/measured_profile.hpp"

using namespace castplan;
using namespace castplan::real;

// Outside: the temperatures themselves. A seasonal thermocline parts water that is warmer on average by 4 C and more;
// under ice there is none.
TEST_CASE("Lake Mendota: measured profiles through the year") {
  const auto data = folder("mendota-wi", {"temperature_profiles.csv"});
  if (!data) return;
  const auto measured = profiles(table(*data + "/temperature_profiles.csv"), {"datetime", "depth", "temp", ""});
  const auto bowl = cone(39.61e6, 25.3);  // area and depth as published
  const auto predicted = predicted_thermocline(SquareMetres(39.61e6), Metres(25.3));
  REQUIRE(predicted);
  int seen = 0, in_band = 0, winter = 0;
  for (const auto& [date, levels] : measured) {
    if (levels.size() < 10 || levels.back().depth < Metres(15)) continue;
    const auto depth = thermocline_in(column(levels));
    const auto stability = schmidt_stability(bowl, column(levels));
    const std::string month = date.substr(5, 2);
    if (levels.front().temperature < Celsius(3.5)) {
      INFO(date);
      CHECK(!depth);
      ++winter;
    }
    if (month != "07" && month != "08") continue;
    INFO(date);
    REQUIRE(depth);
    CHECK(mixing_of(lake_number(bowl, stability, *depth, kUsualWind)) == Mixing::layered);
    ++seen;
    in_band += *depth >= predicted->low && *depth <= predicted->high ? 1 : 0;
    if (seen % 5 == 1) {
      note("Lake Mendota {}: thermocline {:.2f} m, stability {:.0f} J/m2", date, depth->value(), stability.value());
    }
    double above = 0, below = 0, count_above = 0, count_below = 0;
    for (const ProfileReading& level : levels) {
      const bool up = level.depth < *depth;
      (up ? above : below) += level.temperature.value();
      (up ? count_above : count_below) += 1;
    }
    CHECK(above / count_above - below / count_below > 4);
  }
  note("Lake Mendota: {} of {} midsummer profiles within the predicted {:.1f} to {:.1f} m", in_band, seen,
       predicted->low.value(), predicted->high.value());
  CHECK(seen >= 10);
  CHECK(winter >= 2);
}
