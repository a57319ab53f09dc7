// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/thermocline.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <vector>

#include "castplan/geo/error.hpp"
#include "castplan/season/mixing.hpp"
#include "truth.hpp"

using namespace castplan;

namespace {

using Levels = std::vector<TemperatureAtDepth>;

// the profile of the rows TH-THERMO-1 and TH-GRAD-1
Levels summer_profile() {
  const double celsius[] = {22, 22, 21.5, 17, 11, 9, 8.5};
  Levels levels;
  for (int i = 0; i < 7; ++i) levels.push_back({Metres(2.0 * i), Celsius(celsius[i])});
  return levels;
}

}  // namespace

TEST_CASE("density of water gives the published rows") {
  near_row("TH-RHO-0", water_density(Celsius(0)).value());
  near_row("TH-RHO-4", water_density(Celsius(4)).value());
  near_row("TH-RHO-10", water_density(Celsius(10)).value());
  near_row("TH-RHO-20", water_density(Celsius(20)).value());
  near_row("TH-RHO-25", water_density(Celsius(25)).value());
  near_row("TH-RHO-30", water_density(Celsius(30)).value());
  near_row("TH-RHO16-MEAS", water_density(Celsius(16)).value());
  near_row("TH-MM-20", martin_mccutcheon_density(Celsius(20)).value());
  near_row("TH-MM-4", martin_mccutcheon_density(Celsius(4)).value());
  near_row("TH-KELL-20", kell_density(Celsius(20)).value());
}

TEST_CASE("the three densities agree in what matters, their differences") {
  for (double t = 0; t <= 40; t += 0.5) {
    INFO(t << " C");
    const double step = (water_density(Celsius(t)) - water_density(Celsius(t + 1))).value();
    CHECK(step == Approx((kell_density(Celsius(t)) - kell_density(Celsius(t + 1))).value()).margin(0.001));
    CHECK(step == Approx((martin_mccutcheon_density(Celsius(t)) - martin_mccutcheon_density(Celsius(t + 1))).value())
                      .margin(0.005));
    // densest near 4 C
    CHECK((t < 3.4 ? step < 0 : true));
    CHECK((t > 4.0 ? step > 0 : true));
  }
}

TEST_CASE("thermocline of a profile by density, not by temperature") {
  near_row("TH-THERMO-1", thermocline_in(summer_profile(), {Step::steepest, martin_mccutcheon_density})->value());
  // the gradients of two densities agree, so the depth does
  CHECK(thermocline_in(summer_profile())->value() == Approx(truth("TH-THERMO-1").expected).margin(0.01));
  // the steepest step of temperature is another one, 6 to 8 m
  const Levels levels = summer_profile();
  double steepest = 0;
  std::size_t at = 0;
  for (std::size_t i = 0; i + 1 < levels.size(); ++i) {
    const double gradient =
        (levels[i].temperature - levels[i + 1].temperature).value() / (levels[i + 1].depth - levels[i].depth).value();
    if (gradient > steepest) at = i, steepest = gradient;
  }
  near_row("TH-GRAD-1", steepest);
  CHECK(levels[at].depth == Metres(6));
  CHECK(*thermocline_in(levels) < Metres(6));
}

// Closed form: temperature falls by tanh((z - h) / w) about h; the symmetric step of density lies within the curvature
// of the density formula of h.
TEST_CASE("thermocline of a smooth step is found between the samples") {
  for (const double h : {4.3, 6.0, 7.7, 9.25}) {
    Levels levels;
    for (double z = 0; z <= 16; z += 0.5) levels.push_back({Metres(z), Celsius(17 - 4 * std::tanh((z - h) / 1.5))});
    INFO("step at " << h);
    CHECK(thermocline_in(levels)->value() == Approx(h).margin(0.25));
  }
}

TEST_CASE("the seasonal thermocline lies below a warm skin of one afternoon") {
  Levels levels;
  for (double z = 0; z <= 14; z += 0.5) {
    const double skin = z < 1 ? 5 * (1 - z) : 0;  // the steepest step of all
    levels.push_back({Metres(z), Celsius(15 - 5 * std::tanh((z - 8) / 1.0) + skin)});
  }
  CHECK(*thermocline_in(levels, {Step::steepest}) < Metres(1.5));
  CHECK(thermocline_in(levels)->value() == Approx(8).margin(0.3));
}

TEST_CASE("no thermocline where there is none") {
  CHECK(!thermocline_in(Levels{{Metres(0), Celsius(12)}, {Metres(5), Celsius(12)}, {Metres(10), Celsius(12)}}));
  CHECK(!thermocline_in(Levels{{Metres(0), Celsius(12.9)}, {Metres(5), Celsius(12.4)}, {Metres(10), Celsius(12)}}));
  CHECK(!thermocline_in(Levels{{Metres(0), Celsius(20)}, {Metres(10), Celsius(8)}}));  // two levels tell nothing
  CHECK(!thermocline_in(Levels{}));
  // under ice: 0.3 C above 4 C
  CHECK(!thermocline_in(Levels{{Metres(0), Celsius(0.3)}, {Metres(2), Celsius(3)}, {Metres(9), Celsius(4)}}));
  // warm water below cold, as a probe that was read the wrong way round gives it
  CHECK(!thermocline_in(Levels{{Metres(0), Celsius(8)}, {Metres(2), Celsius(12)}, {Metres(9), Celsius(20)}}));
}

TEST_CASE("levels that cannot be are refused") {
  const double nan = std::nan("");
  CHECK_THROWS_AS(thermocline_in(Levels{{Metres(0), Celsius(9)}, {Metres(0), Celsius(8)}, {Metres(2), Celsius(7)}}),
                  InputError);
  CHECK_THROWS_AS(thermocline_in(Levels{{Metres(0), Celsius(nan)}, {Metres(1), Celsius(8)}, {Metres(2), Celsius(7)}}),
                  InputError);
  CHECK_THROWS_AS(thermocline_in(Levels{{Metres(nan), Celsius(9)}, {Metres(1), Celsius(8)}, {Metres(2), Celsius(7)}}),
                  InputError);
}

TEST_CASE("thermocline predicted from the size of the lake gives the published rows") {
  near_row("TH-HANA-0.1", hanna_area(SquareMetres(0.1e6)).value());
  near_row("TH-HANA-1", hanna_area(SquareMetres(1e6)).value());
  near_row("TH-HANA-10", hanna_area(SquareMetres(10e6)).value());
  near_row("TH-HANL-1000", hanna_length(Metres(1000)).value());
  near_row("TH-HANL-5000", hanna_length(Metres(5000)).value());
  near_row("TH-GB-1", gorham_boyce(0.1, KilogramsPerCubicMetre(1.5), Metres(1000)).value());
  near_row("TH-GB-2", gorham_boyce(0.1, KilogramsPerCubicMetre(1.5), Metres(2000)).value());
}

TEST_CASE("the predicted thermocline has a spread, ends at the floor, and is not drawn in shallow lakes") {
  const auto deep = predicted_thermocline(SquareMetres(1e6), Metres(30));
  REQUIRE(deep);
  near_row("TH-HANA-1", deep->expected.value());
  CHECK(deep->low.value() == Approx(0.75 * 6.9502).margin(0.002));
  CHECK(deep->high.value() == Approx(1.25 * 6.9502).margin(0.002));
  CHECK(predicted_thermocline(SquareMetres(1e6), Metres(11))->high.value() == Approx(1.25 * 6.9502).margin(0.002));
  // 3 ha and 4 m: expected 3.63 m, the spread would end at 4.5 m, below the floor
  CHECK(predicted_thermocline(SquareMetres(3e4), Metres(4))->high == Metres(4));
  CHECK(!predicted_thermocline(SquareMetres(1e6), Metres(6.9)));    // shallower than the prediction
  CHECK(!predicted_thermocline(SquareMetres(5000e6), Metres(50)));  // 5,000 km2: geometry ratio 5.3
  for (const double bad : {0.0, -1.0, std::nan(""), std::numeric_limits<double>::infinity()}) {
    CHECK_THROWS_AS(predicted_thermocline(SquareMetres(bad), Metres(9)), InputError);
    CHECK_THROWS_AS(predicted_thermocline(SquareMetres(1e6), Metres(bad)), InputError);
  }
}

TEST_CASE("whether a lake forms layers") {
  near_row("TH-GR-1", geometry_ratio(SquareMetres(1e6), Metres(10)));
  near_row("TH-GR-2", geometry_ratio(SquareMetres(5e5), Metres(20)));
  near_row("TH-OSG-1", osgood_index(Metres(5), SquareMetres(1e6)));
  near_row("TH-OSG-2", osgood_index(Metres(9), SquareMetres(0.5e6)));
  near_row("TH-DR-1", dynamic_ratio(SquareMetres(4e6), Metres(2.5)));
  near_row("TH-WB-1", wave_base(SquareMetres(1e6)).value());
  near_row("TH-WB-100", wave_base(SquareMetres(100e6)).value());
  near_row("TH-ICEON", ice_on_delay(Metres(10)));
  // limits of 3 and 5, from memory
  CHECK(layering(SquareMetres(5e5), Metres(20)) == Layering::stratifies);
  CHECK(layering(SquareMetres(1e6), Metres(10)) == Layering::may_stratify);
  CHECK(layering(SquareMetres(1e6), Metres(5)) == Layering::mixes);
}
