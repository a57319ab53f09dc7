// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/terrain/waves.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace castplan;

// Worked values for wind 10 m/s, fetch 5000 m, g = 9.81: US Army Corps of Engineers (1984), Shore Protection Manual,
// equations 3-39 and 3-40, and its deep-water forms, as evaluated from the published coefficients.
TEST_CASE("waves of the Shore Protection Manual") {
  CHECK(adjusted_wind(MetresPerSecond(10)).value() == Approx(12.0575).margin(0.001));
  const Waves shallow = shallow_waves(MetresPerSecond(10), Metres(5000), Metres(3));
  CHECK(shallow.height.value() == Approx(0.3822).margin(0.002));
  CHECK(shallow.period.value() == Approx(2.1764).margin(0.005));
  // over short fetches of deep water the tanh fall away, and the manual's forms for deep water are left:
  // gH/UA^2 = 1.6e-3 sqrt(gF/UA^2), gT/UA = 0.2857 (gF/UA^2)^(1/3)
  const double ua = 12.0575, far = 9.81 * 100 / (ua * ua);
  const Waves deep = shallow_waves(MetresPerSecond(10), Metres(100), Metres(500));
  CHECK(deep.height.value() == Approx(1.6e-3 * std::sqrt(far) * ua * ua / 9.81).epsilon(0.005));
  CHECK(deep.period.value() == Approx(0.2857 * std::cbrt(far) * ua / 9.81).epsilon(0.005));
}

TEST_CASE("no wind, no fetch, no water: no waves") {
  CHECK(shallow_waves(MetresPerSecond(0), Metres(5000), Metres(3)).height == Metres(0));
  CHECK(shallow_waves(MetresPerSecond(10), Metres(0), Metres(3)).period.value() == 0);
  CHECK(shallow_waves(MetresPerSecond(10), Metres(5000), Metres(0)).height == Metres(0));
}

TEST_CASE("waves of 2 s stir the water to half their length of 6.2452 m") {  // linear wave theory, g T^2 / 2 pi
  CHECK(wave_base(Seconds(2)).value() == Approx(3.1226).margin(0.001));
}
