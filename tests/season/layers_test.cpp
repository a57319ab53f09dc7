// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/layers.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <tuple>

#include "questions.hpp"

using namespace castplan;

namespace {

// 100 ha and a straight-sided bowl
std::vector<AreaAtDepth> areas(double deep) {
  std::vector<AreaAtDepth> out;
  for (int i = 0; i <= 20; ++i) out.push_back({Metres(deep * i / 20), SquareMetres(1e6 * (1 - i / 20.0))});
  return out;
}

// warm to 5 m, cold from 8 m, oxygen gone below 9 m
std::vector<ProfileReading> summer(const std::string& date) {
  std::vector<ProfileReading> out;
  for (int z = 0; z <= 12; ++z) {
    const double celsius = 14.5 - 7.5 * std::tanh((z - 6.5) / 1.2);
    out.push_back({date, Metres(z), Celsius(celsius), z <= 8 ? 9.0 : z == 9 ? 4.0 : 1.0});
  }
  return out;
}

LayerQuestion question(const std::vector<AreaAtDepth>& bowl) {
  LayerQuestion out;
  out.areas = bowl;
  return out;
}

}  // namespace

TEST_CASE("a measured thermocline beats the predicted one") {
  const auto bowl = areas(20);
  const auto profile = summer("2026-07-20");
  LayerQuestion asked = question(bowl);
  asked.date = parse_date("2026-07-25");
  asked.surface = Celsius(22);
  asked.profile = profile;
  const LayerAnswer answer = decide_layers(asked);
  REQUIRE(answer.thermocline);
  CHECK(answer.thermocline->expected.value() == Approx(6.5).margin(0.3));
  CHECK(answer.thermocline->low < answer.thermocline->expected);
  CHECK(answer.thermocline->high > answer.thermocline->expected);
  CHECK(answer.source == "profile");
  CHECK(answer.mixing == Mixing::layered);
  CHECK(answer.profile_date == "2026-07-20");
}

TEST_CASE("a profile of another time is not used, and that is said") {
  const auto bowl = areas(20);
  const auto profile = summer("2026-07-20");
  for (const char* date : {"2026-08-04", "2026-07-19", "2027-07-20"}) {
    LayerQuestion asked = question(bowl);
    asked.date = parse_date(date);
    asked.surface = Celsius(22);
    asked.profile = profile;
    const LayerAnswer answer = decide_layers(asked);
    INFO(date);
    CHECK(answer.source == "predicted");
    CHECK(answer.without_oxygen.empty());
    CHECK(mention(answer.notes, "not used"));
  }
  LayerQuestion undated = question(bowl);
  undated.profile = profile;
  CHECK(mention(decide_layers(undated).notes, "needs a date"));
  // of several dates the newest that is not after the date
  auto two = summer("2026-07-20");
  for (const auto& level : summer("2026-07-24")) two.push_back(level);
  for (const auto& level : summer("2026-08-20")) two.push_back(level);
  undated.profile = two;
  undated.date = parse_date("2026-07-25");
  CHECK(decide_layers(undated).profile_date == "2026-07-24");
}

TEST_CASE("a mixed profile has no thermocline, whatever is predicted") {
  const auto bowl = areas(20);
  std::vector<ProfileReading> mixed;
  for (int z = 0; z <= 12; ++z) mixed.push_back({"2026-10-20", Metres(z), Celsius(9.2 - 0.01 * z), std::nullopt});
  LayerQuestion asked = question(bowl);
  asked.date = parse_date("2026-10-21");
  asked.surface = Celsius(9.2);
  asked.profile = mixed;
  const LayerAnswer answer = decide_layers(asked);
  CHECK(!answer.thermocline);
  CHECK(answer.source == "profile");
  CHECK(answer.mixing == Mixing::mixed);
}

TEST_CASE("without a profile: predicted in summer, nothing at turnover, nothing in rivers and shallow lakes") {
  const auto bowl = areas(20);
  LayerQuestion asked = question(bowl);
  asked.surface = Celsius(22);
  LayerAnswer answer = decide_layers(asked);
  REQUIRE(answer.thermocline);
  CHECK(answer.thermocline->expected.value() == Approx(6.9502).margin(0.002));  // TH-HANA-1: the bowl has 1 km2
  CHECK(answer.source == "predicted");
  asked.surface = Celsius(11);
  answer = decide_layers(asked);
  CHECK(!answer.thermocline);
  CHECK(answer.mixing == Mixing::turning_over);
  asked.surface = Celsius(3.9);
  CHECK(decide_layers(asked).mixing == Mixing::mixed);
  asked.surface.reset();
  CHECK(decide_layers(asked).text.find("midsummer") != std::string::npos);
  asked.river = true;
  CHECK(!decide_layers(asked).thermocline);
  CHECK(decide_layers(asked).source.empty());
  const auto shallow = areas(5);
  LayerQuestion pond = question(shallow);
  pond.surface = Celsius(22);
  CHECK(!decide_layers(pond).thermocline);
  CHECK(decide_layers(pond).mixing == Mixing::mixed);
  // a known winter makes the water below better known: mild winters leave 13 C there
  asked.river = false;
  asked.surface = Celsius(14);
  asked.coldest_month = Celsius(-15);  // 6.6 C below
  CHECK(decide_layers(asked).mixing == Mixing::layered);
  asked.coldest_month = Celsius(5);  // 14 C below
  CHECK(decide_layers(asked).mixing == Mixing::turning_over);
}

TEST_CASE("depths without oxygen lie between the samples where the limit is crossed") {
  const auto none = depths_without_oxygen(summer("2026-07-20"));
  REQUIRE(none.size() == 1);
  CHECK(none[0].first.value() == Approx(9 + 1.0 / 3));  // from 4 mg/l at 9 m to 1 mg/l at 10 m
  CHECK(std::isinf(none[0].second.value()));
  // a layer without oxygen in the middle, and levels that were not measured
  const std::vector<ProfileReading> middle{{"2026-07-20", Metres(0), Celsius(20), 9.0},
                                           {"2026-07-20", Metres(4), Celsius(18), 5.0},
                                           {"2026-07-20", Metres(5), Celsius(15), std::nullopt},
                                           {"2026-07-20", Metres(6), Celsius(12), 1.0},
                                           {"2026-07-20", Metres(8), Celsius(9), 5.0}};
  const auto found = depths_without_oxygen(middle);
  REQUIRE(found.size() == 1);
  CHECK(found[0].first.value() == Approx(5.0));
  CHECK(found[0].second.value() == Approx(7.0));
  CHECK(depths_without_oxygen({}).empty());
  const std::vector<ProfileReading> dead{{"2026-07-20", Metres(1), Celsius(20), 1.0}};
  CHECK(depths_without_oxygen(dead)[0].first == Metres(0));
}

TEST_CASE("a depth curve is 0 where there is no oxygen and the same elsewhere") {
  const Curve& curve = phase_named(species("muskellunge"), "summer")->depth;
  const std::vector<std::pair<Metres, Metres>> none{{Metres(3.5), Metres(HUGE_VAL)}};
  const Curve cut = without_depths(curve, none, "why");
  for (double z = 0; z < 12; z += 0.01) {
    INFO(z << " m");
    if (z >= 3.5) CHECK(cut(z) == 0);
    if (z < 3.49) CHECK(cut(z) == Approx(curve(z)).margin(1e-9));
  }
  CHECK(cut.source.text.find("; why") != std::string::npos);
  const std::vector<std::pair<Metres, Metres>> band{{Metres(2), Metres(3)}};
  const Curve with_band = without_depths(curve, band, "why");
  CHECK(with_band(2.5) == 0);
  CHECK(with_band(3.5) == Approx(curve(3.5)));
  CHECK(without_depths(curve, {}, "why").points == curve.points);
}

TEST_CASE("the top of a fresh profile is a reading of the surface") {
  const auto profile = summer("2026-07-20");
  CHECK(surface_of_profile(profile, parse_date("2026-07-24"))->temperature == profile[0].temperature);
  CHECK(!surface_of_profile(profile, parse_date("2026-07-26")));
  CHECK(!surface_of_profile(profile, parse_date("2026-07-19")));
  const std::vector<ProfileReading> deep(profile.begin() + 3, profile.end());
  CHECK(!surface_of_profile(deep, parse_date("2026-07-20")));
}

TEST_CASE("depths are counted from the thermocline where the profile says so and there is one") {
  const Phase& summer = *phase_named(species("lake-trout"), "summer");
  const Phase layered = by_thermocline(summer, ThermoclineDepth{Metres(7), Metres(6), Metres(8)});
  CHECK(layered.depth(6) == summer.depth_below_thermocline(-1));
  CHECK(layered.depth(8) == 1.0);
  CHECK(layered.depth(13) == 1.0);
  CHECK(layered.depth.source.text.find("thermocline at 7.0 m") != std::string::npos);
  CHECK(by_thermocline(summer, std::nullopt).depth(8) == summer.depth(8));
  const Phase& musky = *phase_named(species("muskellunge"), "summer");  // no curve of that kind
  CHECK(by_thermocline(musky, ThermoclineDepth{Metres(7), Metres(6), Metres(8)}).depth(3) == musky.depth(3));
}

TEST_CASE("a species may need more oxygen than the usual limit") {
  // Plumb & Blanchfield 2009: lake trout use water with more than 4 (or 6) mg/l
  std::vector<ProfileReading> profile;
  for (const auto& [depth, celsius, oxygen] : {std::tuple(0.0, 20.0, 9.0), std::tuple(4.0, 19.0, 8.0),
                                               std::tuple(8.0, 9.0, 3.5), std::tuple(12.0, 8.0, 3.2)}) {
    profile.push_back({"2026-08-01", Metres(depth), Celsius(celsius), oxygen});
  }
  LayerQuestion question;
  question.date = parse_date("2026-08-02");
  question.profile = profile;
  CHECK(decide_layers(question).without_oxygen.empty());
  question.least_oxygen = species("lake-trout").least_oxygen->value;
  const auto lacking = decide_layers(question).without_oxygen;
  REQUIRE(lacking.size() == 1);
  CHECK(lacking.front().first.value() == Approx(4 + 4 * 4.0 / 4.5));  // a straight line from 8 to 3.5 mg/l
}
