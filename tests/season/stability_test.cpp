// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/stability.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "castplan/geo/error.hpp"
#include "support/lakes.hpp"
#include "truth.hpp"

using namespace castplan;

namespace {

using Areas = std::vector<AreaAtDepth>;
using Levels = std::vector<TemperatureAtDepth>;

Areas box(double deep, double area = 1e5) {
  return {{Metres(0), SquareMetres(area)}, {Metres(deep), SquareMetres(area)}};
}

// the rows TH-SCHMIDT-EX and -EX01
Areas example_areas() {
  Areas areas;
  for (int i = 0; i < 9; ++i) areas.push_back({Metres(1.0 + i), SquareMetres(8.0 - i)});
  return areas;
}
Levels example_levels() {
  const double celsius[] = {24, 24, 24, 20, 17, 12, 11, 10, 10};
  Levels levels;
  for (int i = 0; i < 9; ++i) levels.push_back({Metres(1.0 + i), Celsius(celsius[i])});
  return levels;
}

}  // namespace

TEST_CASE("stability of two layers is the closed form") {
  const std::vector<DensityAtDepth> layers{{Metres(5), KilogramsPerCubicMetre(998.2)},
                                           {Metres(5), KilogramsPerCubicMetre(999.7)}};
  near_row("TH-SCHMIDT-BOX", schmidt_stability(box(10), layers).value());
  CHECK(schmidt_stability(box(10), layers).value() == Approx(183.9375).margin(1e-6));  // 9.81 x 1.5 x 5 x 5 / 2
  // the other way round it is what was won by turning it over
  const std::vector<DensityAtDepth> upside_down{{Metres(5), KilogramsPerCubicMetre(999.7)},
                                                {Metres(5), KilogramsPerCubicMetre(998.2)}};
  CHECK(schmidt_stability(box(10), upside_down).value() == Approx(-183.9375).margin(1e-6));
}

TEST_CASE("stability of a profile is the integral, not a sum of coarse steps") {
  near_row("TH-SCHMIDT-EX", schmidt_stability(example_areas(), example_levels(), martin_mccutcheon_density).value());
  // the sum with 0.1 m, both ends counted, as the open-source implementation forms it: 1.6 % high
  double volume = 0, moment = 0, sum = 0;
  const auto area = [](double z) { return 9.0 - z; };
  const auto density = [](double z) {
    const Levels levels = example_levels();
    const auto k = std::min<std::size_t>(7, static_cast<std::size_t>(z - 1.0));
    const double share = z - levels[k].depth.value();
    const double above = martin_mccutcheon_density(levels[k].temperature).value();
    return above + share * (martin_mccutcheon_density(levels[k + 1].temperature).value() - above);
  };
  for (int i = 0; i <= 80; ++i) volume += area(1 + 0.1 * i), moment += (1 + 0.1 * i) * area(1 + 0.1 * i);
  for (int i = 0; i <= 80; ++i) {
    const double z = 1 + 0.1 * i;
    sum += (z - moment / volume) * density(z) * area(z) * 0.1;
  }
  near_row("TH-SCHMIDT-EX01", 9.81 / 8.0 * sum);
}

TEST_CASE("a column of one temperature has no stability") {
  near_row("TH-SCHMIDT-0",
           schmidt_stability(example_areas(), Levels{{Metres(0), Celsius(15)}, {Metres(9), Celsius(15)}}).value());
}

// Closed form for a cone of greatest depth D, area A0 (1 - z/D)^2, density step d at h: centre of volume D/4; mass
// below h has moment A0 [D^2 s^3 (1/3 - s/4) ...], taken from the two integrals below with s = 1 - h/D.
TEST_CASE("stability of a cone with two layers is the closed form") {
  constexpr double kDeep = 12, kStep = 4, kMore = 1.2;
  Areas areas;
  for (int i = 0; i <= 1200; ++i) {
    const double z = kDeep * i / 1200;
    areas.push_back({Metres(z), SquareMetres(1e6 * (1 - z / kDeep) * (1 - z / kDeep))});
  }
  const double s = 1 - kStep / kDeep;
  const double volume_below = kDeep * s * s * s / 3;                                // per A0
  const double moment_below = kDeep * kDeep * (s * s * s / 3 - s * s * s * s / 4);  // integral of z (1 - z/D)^2
  const double expected = 9.81 * kMore * (moment_below - kDeep / 4 * volume_below);
  const std::vector<DensityAtDepth> layers{{Metres(kStep), KilogramsPerCubicMetre(998)},
                                           {Metres(kStep), KilogramsPerCubicMetre(998 + kMore)}};
  CHECK(schmidt_stability(areas, layers).value() == Approx(expected).epsilon(1e-5));
}

TEST_CASE("areas of a lake by depth are those of its shape") {
  // a paraboloid: area pi R^2 (1 - z / D)
  const Lake lake = lakes::lake_of(lakes::bowl(Metres(300), Metres(12), Metres(5), Metres(20)));
  const auto areas = hypsography(lake);
  REQUIRE(areas.size() == 21);
  CHECK(areas.front().area.value() == Approx(lake.bodies[0].area.value()));
  CHECK(areas.back().area.value() == 0);
  const double all = 3.14159265 * 300 * 300;
  for (std::size_t i = 1; i < areas.size(); ++i) {
    CHECK(areas[i].area <= areas[i - 1].area);
    CHECK(areas[i].area.value() == Approx(all * (1 - areas[i].depth.value() / 12)).margin(0.01 * all));
  }
}

// Closed form for two layers in a box of depth D: S = g d h (D - h) / 2, centre of volume D / 2.
TEST_CASE("lake number of two layers in a box is the closed form") {
  const double friction_squared = 1.2 / 1000 * 0.0013 * 25;  // 5 m/s
  const double stability = 9.81 * 1.5 * 4 * 6 / 2;
  const std::vector<DensityAtDepth> layers{{Metres(4), KilogramsPerCubicMetre(998.2)},
                                           {Metres(4), KilogramsPerCubicMetre(999.7)}};
  const auto ours = schmidt_stability(box(10), layers);
  CHECK(ours.value() == Approx(stability));
  CHECK(lake_number(box(10), ours, Metres(4), MetresPerSecond(5)) ==
        Approx(stability * 4 / (1000 * friction_squared * std::sqrt(1e5) * 5)));
  CHECK(std::isinf(lake_number(box(10), ours, Metres(4), MetresPerSecond(0))));
  CHECK(mixing_of(lake_number(box(10), JoulesPerSquareMetre(0), Metres(4), MetresPerSecond(5))) == Mixing::mixed);
}

TEST_CASE("a lake turns over by its stability, not at a temperature") {
  // 12 C over 10 C in the middle: a deep lake is layered, a shallow one of the same temperatures is not
  Areas deep, shallow;
  for (int i = 0; i <= 20; ++i) {
    const double share = 1 - i / 20.0;
    deep.push_back({Metres(1.5 * i), SquareMetres(1e6 * share)});
    shallow.push_back({Metres(0.3 * i), SquareMetres(1e6 * share)});
  }
  const auto state = [](const Areas& areas, double step, double above, double below, double wind) {
    const auto stability = two_layer_stability(areas, Metres(step), Celsius(above), Celsius(below));
    return mixing_of(lake_number(areas, stability, Metres(step), MetresPerSecond(wind)));
  };
  CHECK(state(deep, 10, 12, 10, 4) == Mixing::layered);
  CHECK(state(shallow, 2.1, 12, 10, 4) == Mixing::turning_over);
  CHECK(state(shallow, 2.1, 12, 11.95, 4) == Mixing::mixed);
  // more wind mixes more
  CHECK(state(deep, 10, 12, 10, 15) == Mixing::turning_over);
  CHECK(state(shallow, 2.1, 12, 10, 1) == Mixing::layered);
}

TEST_CASE("without a profile the answer is sure only where every cold layer gives the same") {
  Areas areas;
  for (int i = 0; i <= 20; ++i) areas.push_back({Metres(1.0 * i), SquareMetres(1e6 * (1 - i / 20.0))});
  const auto at = [&](double surface) {
    return mixing_without_profile(areas, Metres(7), Celsius(surface), Celsius(4.5), Celsius(11));
  };
  CHECK(at(22) == Mixing::layered);
  CHECK(at(11) == Mixing::turning_over);
  CHECK(at(4.6) == Mixing::mixed);
  int before = 2;
  for (double t = 4; t <= 26; t += 0.25) {  // warmer at the top is never less layered
    const int now = static_cast<int>(at(t));
    CHECK(now <= before);
    before = now;
  }
}

TEST_CASE("bottom water from the coldest month") {
  near_row("TH-HYPO-1", bottom_temperature(Celsius(-10)).value());
  near_row("TH-HYPO-2", bottom_temperature(Celsius(5)).value());
}

TEST_CASE("what cannot be a lake has no stability") {
  const Levels levels{{Metres(0), Celsius(20)}, {Metres(9), Celsius(8)}};
  CHECK_THROWS_AS(schmidt_stability(Areas{}, levels), InputError);
  CHECK_THROWS_AS(schmidt_stability(Areas{{Metres(0), SquareMetres(0)}, {Metres(1), SquareMetres(0)}}, levels),
                  InputError);
  CHECK_THROWS_AS(schmidt_stability(Areas{{Metres(0), SquareMetres(9)}, {Metres(0), SquareMetres(0)}}, levels),
                  InputError);
  CHECK_THROWS_AS(schmidt_stability(box(9), Levels{}), InputError);
  CHECK_THROWS_AS(schmidt_stability(box(9), Levels{{Metres(1), Celsius(5)}, {Metres(0), Celsius(5)}}), InputError);
}
