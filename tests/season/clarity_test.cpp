// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/clarity.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <map>

#include "castplan/geo/error.hpp"
#include "castplan/season/weed_calendar.hpp"

using namespace castplan;

TEST_CASE("stained is under 1 m of Secchi depth, clear over 4 m") {
  CHECK(clarity_of(std::nullopt) == Clarity::usual);
  CHECK(clarity_of(Metres(0.99)) == Clarity::stained);
  CHECK(clarity_of(Metres(1)) == Clarity::usual);
  CHECK(clarity_of(Metres(4)) == Clarity::usual);
  CHECK(clarity_of(Metres(4.01)) == Clarity::clear);
}

TEST_CASE("light is lost as Poole & Atkins and Holmes found") {
  // Kd = 1.7 / SD in clear, 1.44 / SD in turbid water; at SD 2 m 0.850 1/m, and 1 % of the light is left at 5.418 m
  CHECK(light_lost(Metres(2)) == Approx(0.850));
  CHECK(std::exp(-light_lost(Metres(2)) * 5.418) == Approx(0.01).epsilon(0.001));
  CHECK(std::exp(-light_lost(Metres(10)) * 27.089) == Approx(0.01).epsilon(0.001));  // printed in the source
  CHECK(light_lost(Metres(0.5)) == Approx(1.44 / 0.5));
  CHECK_THROWS_AS(light_lost(Metres(0)), InputError);
}

TEST_CASE("clarity changes depth, edge, cover and light, and the weights still sum to 1") {
  for (const auto name : species_names()) {
    for (const Phase& phase : species(name).phases) {
      INFO(name << " " << phase.name);
      std::map<Factor, double> before;
      for (const auto& [factor, weight] : phase.weights) before[factor] = weight.value;
      for (const double secchi : {0.6, 6.0}) {
        const Phase changed = for_clarity(phase, Metres(secchi));
        double sum = 0;
        std::map<Factor, double> after;
        for (const auto& [factor, weight] : changed.weights) {
          CHECK(weight.value > 0);
          sum += after[factor] = weight.value;
        }
        CHECK(sum == Approx(1));
        CHECK(after[Factor::light] == Approx(0.1));
        const double depths = secchi < 1 ? 0.75 : 1.25;
        for (const double x : {1.0, 2.5, 6.0}) CHECK(changed.depth(x * depths) == Approx(phase.depth(x)));
        // against the factor that no clarity touches
        const auto share = [&](std::map<Factor, double>& of, Factor factor) { return of[factor] / of[Factor::depth]; };
        if (secchi < 1) {
          CHECK(share(after, Factor::edge) > share(before, Factor::edge));
          CHECK(share(after, Factor::deep_water) < share(before, Factor::deep_water));
        } else {
          CHECK(share(after, Factor::edge) < share(before, Factor::edge));
          CHECK(share(after, Factor::deep_water) > share(before, Factor::deep_water));
        }
        for (const auto& point : changed.light.points) CHECK((point.second > 0 && point.second <= 1));
      }
      CHECK(for_clarity(phase, Metres(2)).weights.size() == phase.weights.size());
      CHECK(for_clarity(phase, std::nullopt).depth(3) == phase.depth(3));
    }
  }
}

TEST_CASE("more light never counts less in stained water, nor more in clear water") {
  const Phase& phase = species("muskellunge").phases[4];
  const Phase stained = for_clarity(phase, Metres(0.6)), clear = for_clarity(phase, Metres(6));
  for (double light = 0; light < 100; light += 0.5) {
    CHECK(stained.light(light + 0.5) >= stained.light(light));
    CHECK(clear.light(light + 0.5) <= clear.light(light));
  }
  CHECK(casts_in(Clarity::stained)->second < casts_in(Clarity::clear)->first + Metres(1));
  CHECK_FALSE(casts_in(Clarity::usual));
}

TEST_CASE("weeds come up in spring, stand in summer and die in autumn") {
  CHECK(weed_stage(Celsius(9.9), Trend::rising) == WeedStage::none);
  CHECK(weed_stage(Celsius(10), Trend::rising) == WeedStage::new_growth);
  CHECK(weed_stage(Celsius(17.9), Trend::rising) == WeedStage::new_growth);
  CHECK(weed_stage(Celsius(18), Trend::rising) == WeedStage::standing);
  CHECK(weed_stage(Celsius(26), std::nullopt) == WeedStage::standing);
  CHECK(weed_stage(Celsius(12), Trend::falling) == WeedStage::standing);
  CHECK(weed_stage(Celsius(11.9), Trend::falling) == WeedStage::dying);
  CHECK(weed_stage(Celsius(3.9), Trend::falling) == WeedStage::none);
  CHECK(weed_stage(Celsius(11), std::nullopt) == WeedStage::new_growth);  // of two the one with less
  double before = 0;
  for (double t = 0; t < 30; t += 0.1) {
    CHECK(outside_share(weed_stage(Celsius(t), Trend::rising)) >= before);
    before = outside_share(weed_stage(Celsius(t), Trend::rising));
  }
  before = 1;
  for (double t = 30; t > 0; t -= 0.1) {
    CHECK(outside_share(weed_stage(Celsius(t), Trend::falling)) <= before);
    before = outside_share(weed_stage(Celsius(t), Trend::falling));
  }
  const std::map<std::string, WeedStage> year = {{"cold", WeedStage::none},
                                                 {"pre-spawn", WeedStage::none},
                                                 {"spawn", WeedStage::none},
                                                 {"post-spawn", WeedStage::new_growth},
                                                 {"early-summer", WeedStage::standing},
                                                 {"summer", WeedStage::standing},
                                                 {"heat-stop", WeedStage::standing},
                                                 {"early-autumn", WeedStage::standing},
                                                 {"late-autumn", WeedStage::dying}};
  for (const Phase& phase : species("muskellunge").phases) {
    INFO(phase.name);
    CHECK(weed_stage(phase) == year.at(phase.name));
  }
}
