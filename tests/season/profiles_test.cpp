// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <set>
#include <thread>

#include "castplan/geo/error.hpp"
#include "castplan/season/profile.hpp"
#include "truth.hpp"

using namespace castplan;

namespace {

// How many phases hold a temperature, by their intervals alone.
int phases_holding(const Profile& profile, double t, Trend trend, std::string& name) {
  int count = 0;
  for (const Phase& phase : profile.phases) {
    const auto& interval = trend == Trend::rising ? phase.rising : phase.falling;
    if (!interval || t < interval->from.value() || t >= interval->to.value()) continue;
    ++count;
    name = phase.name;
  }
  return count;
}

struct Row {
  const char* phase;
  double from, to;  // C
};
constexpr double k75F = (75.0 - 32.0) / 1.8;
// The year of the muskellunge as it was designed, limits in C.
const std::vector<Row> kRising = {{"cold", -99, 5},         {"pre-spawn", 5, 8},      {"spawn", 8, 15.6},
                                  {"post-spawn", 15.6, 18}, {"early-summer", 18, 22}, {"summer", 22, k75F},
                                  {"heat-stop", k75F, 99}};
const std::vector<Row> kFalling = {
    {"cold", -99, 4}, {"late-autumn", 4, 12}, {"early-autumn", 12, 22}, {"summer", 22, k75F}, {"heat-stop", k75F, 99}};

std::string expected_phase(const std::vector<Row>& table, double t) {
  for (const Row& row : table) {
    if (t >= row.from && t < row.to) return row.phase;
  }
  return "none";
}

}  // namespace

TEST_CASE("six species are built in, by name") {
  const auto names = species_names();
  const std::vector<std::string_view> found(names.begin(), names.end());
  CHECK(found == std::vector<std::string_view>{"lake-trout", "largemouth-bass", "muskellunge", "northern-pike",
                                               "smallmouth-bass", "walleye"});
  for (const auto name : names) CHECK(species(name).name == name);
  CHECK(&species("muskellunge") == &species("muskellunge"));
  CHECK_THROWS_AS(species("muskelunge"), UsageError);
  CHECK_THROWS_WITH(species("muskelunge"),
                    Catch::Contains("did you mean \"muskellunge\"") && Catch::Contains("northern-pike"));
}

TEST_CASE("every temperature from 0 to 35 C has exactly one phase in both trends") {
  for (const auto name : species_names()) {
    const Profile& profile = species(name);
    for (const Trend trend : {Trend::rising, Trend::falling}) {
      int wrong = 0;
      for (int i = 0; i <= 3500; ++i) {
        const double t = i / 100.0;
        std::string phase;
        if (phases_holding(profile, t, trend, phase) != 1 || phase_at(profile, Celsius(t), trend).name != phase) {
          ++wrong;
          INFO(name << (trend == Trend::rising ? " rising " : " falling ") << t);
          CHECK(wrong == 0);
        }
      }
      CHECK(phase_at(profile, Celsius(-40), trend).name == phase_at(profile, Celsius(0), trend).name);
      CHECK(phase_at(profile, Celsius(80), trend).name == phase_at(profile, Celsius(35), trend).name);
    }
  }
}

TEST_CASE("the muskellunge has the phases of its design") {
  const Profile& profile = species("muskellunge");
  std::vector<std::string> names;
  for (const Phase& phase : profile.phases) names.push_back(phase.name);
  CHECK(names == std::vector<std::string>{"cold", "pre-spawn", "spawn", "post-spawn", "early-summer", "summer",
                                          "heat-stop", "early-autumn", "late-autumn"});
  for (int i = 0; i <= 3500; ++i) {
    const double t = i / 100.0;
    CHECK(phase_at(profile, Celsius(t), Trend::rising).name == expected_phase(kRising, t));
    CHECK(phase_at(profile, Celsius(t), Trend::falling).name == expected_phase(kFalling, t));
  }
  for (const Phase& phase : profile.phases) {
    CHECK(phase.fishable == (phase.name != "spawn" && phase.name != "heat-stop"));
  }
}

TEST_CASE("limits are half-open: the limit itself belongs to the warmer phase") {
  const Profile& profile = species("muskellunge");
  const auto check = [&](const std::vector<Row>& table, Trend trend) {
    for (std::size_t i = 1; i < table.size(); ++i) {
      CHECK(phase_at(profile, Celsius(table[i].from), trend).name == table[i].phase);
      CHECK(phase_at(profile, Celsius(table[i].from - 1e-6), trend).name == table[i - 1].phase);
    }
  };
  check(kRising, Trend::rising);
  check(kFalling, Trend::falling);
  // the same limits read in Fahrenheit, whose conversion misses 8 C by a hair
  CHECK(phase_at(profile, fahrenheit(46.4), Trend::rising).name == "spawn");
  CHECK(phase_at(profile, fahrenheit(60.08), Trend::rising).name == "post-spawn");
  CHECK(phase_at(profile, fahrenheit(75.0), Trend::rising).name == "heat-stop");
  CHECK(phase_at(profile, fahrenheit(74.99), Trend::rising).name == "summer");
}

TEST_CASE("the rules of the trade lie inside the stops of the muskellunge") {
  const Profile& profile = species("muskellunge");
  for (const char* id : {"TR-SPAWN-LO", "TR-SPAWN-HI"}) {
    CHECK(phase_at(profile, Celsius(truth(id).expected), Trend::rising).name == "spawn");
  }
  CHECK(std::abs(fahrenheit(60).value() - truth("TR-SPAWN-HI").expected) <= truth("TR-SPAWN-HI").tolerance);

  const Truth stop = truth("TR-HEAT-STOP");
  REQUIRE(profile.stop_from);
  CHECK(std::abs(profile.stop_from->value.value() - stop.expected) <= stop.tolerance);
  CHECK(profile.stop_from->value == fahrenheit(75));
  CHECK(profile.stop_text == "75 F");
  CHECK(profile.stop_from->source.mark == "common-practice");
  REQUIRE(profile.caution_from);
  CHECK(profile.caution_from->value == fahrenheit(70));

  // 80 F lies inside the worst class of the pond study, 25.0 to 27.49 C, and so must lie inside the stop
  CHECK(truth("SP-MUS-R2").expected > truth("SP-MUS-R1").expected);
  CHECK(truth("SP-80F").expected > 25.0);
  CHECK(phase_at(profile, Celsius(truth("SP-80F").expected), Trend::rising).name == "heat-stop");
  CHECK(profile.stop_from->value.value() < 25.0);
}

TEST_CASE("what the profiles say of deaths and of lives is what the studies printed") {
  const auto says = [](std::string_view name, const std::string& words) {
    const Profile& profile = species(name);
    return std::any_of(profile.facts.begin(), profile.facts.end(),
                       [&](const auto& fact) { return fact.first.find(words) != std::string::npos; }) ||
           std::any_of(profile.handling.begin(), profile.handling.end(),
                       [&](const std::string& advice) { return advice.find(words) != std::string::npos; });
  };
  const auto per_cent = [](const char* id) { return fmt::format("{:.3g} %", 100 * truth(id).expected); };
  CHECK(says("muskellunge", "50 angled fish in ponds at 19.6 to 32.6 C " + per_cent("SP-MUS-MORT")));
  CHECK(says("muskellunge", "not angled " + per_cent("SP-MUS-CTRL")));
  CHECK(3.0 / 27 == Approx(truth("SP-MUS-RES").expected).margin(truth("SP-MUS-RES").tolerance));
  CHECK(says("muskellunge", "3 of 27 died"));
  CHECK(says("walleye", "20 C and more " + per_cent("SP-WAL-MORT")));
  CHECK(says("walleye", per_cent("SP-WAL-DEPTH") + " at 12 m"));
  CHECK(says("largemouth-bass", "in the mouth " + per_cent("SP-LMB-ORAL")));
  CHECK(says("largemouth-bass", "in the gullet " + per_cent("SP-LMB-ESOPH")));
  // deaths do not fall to nothing above the worst class: the stop has no upper end
  CHECK(truth("SP-MUS-R3").expected > truth("SP-MUS-R1").expected);
  CHECK(phase_at(species("muskellunge"), Celsius(30), Trend::rising).name == "heat-stop");
}

TEST_CASE("pike and bass: limits of their studies, spawn closed") {
  const Profile& pike = species("northern-pike");
  CHECK(pike.caution_from->value.value() == 22.0);
  CHECK(pike.stop_from->value.value() == 25.0);
  CHECK(pike.stop_text == "25 C");
  for (const double t : {8.0, 10.0, 12.0, 12.99}) {  // Inskip 1982: 8-12 C, most done by 13
    CHECK(phase_at(pike, Celsius(t), Trend::rising).name == "spawn");
  }
  CHECK_FALSE(phase_at(pike, Celsius(25), Trend::falling).fishable);
  CHECK_FALSE(phase_named(pike, "spawn")->fishable);

  const Profile& bass = species("smallmouth-bass");
  CHECK(bass.caution_from->value.value() == 27.0);
  CHECK_FALSE(bass.stop_from);
  for (const double t : {12.8, 15.0, 20.99}) {  // Edwards et al. 1983: nests at 12.8-21.0 C
    CHECK(phase_at(bass, Celsius(t), Trend::rising).name == "spawn");
  }
  CHECK(phase_at(bass, Celsius(21), Trend::rising).name == "summer");
  CHECK_FALSE(phase_named(bass, "spawn")->fishable);
  CHECK(phase_named(bass, "heat-stop") == nullptr);
}

TEST_CASE("walleye and largemouth bass keep to the figures that they quote") {
  const Profile& walleye = species("walleye");
  CHECK(walleye.caution_from->value.value() == 20.0);  // design, after Reeves & Bruesewitz 2007
  CHECK_FALSE(walleye.stop_from);
  for (const double t : {5.0, 7.5, 10.0, 10.99}) {  // Hokanson 1977 and others: usually 5-10 C, over by 10-11 C
    CHECK(phase_at(walleye, Celsius(t), Trend::rising).name == "spawn");
  }
  CHECK(phase_at(walleye, Celsius(11), Trend::rising).name == "post-spawn");
  CHECK(phase_at(walleye, Celsius(8), Trend::falling).fishable);  // in autumn the same water is no spawn
  CHECK_FALSE(phase_named(walleye, "spawn")->fishable);

  const Profile& bass = species("largemouth-bass");
  CHECK(bass.caution_from->value.value() == 27.0);
  CHECK(bass.optimum->value.value() == 27.0);  // Coutant 1975
  for (const double t : {13.0, 17.0, 20.0}) {  // starts about 13 C, peak about 17 C, most eggs live at 20 C
    CHECK_FALSE(phase_at(bass, Celsius(t), Trend::rising).fishable);
  }
  CHECK(phase_at(bass, Celsius(27), Trend::rising).name == "summer");
}

TEST_CASE("depth bands of the muskellunge are those of the design") {
  const Profile& profile = species("muskellunge");
  const std::map<std::string, std::pair<double, double>> bands = {{"post-spawn", {0.6, 2.5}},
                                                                  {"early-summer", {1.5, 4}},
                                                                  {"summer", {2, 5}},
                                                                  {"early-autumn", {1.5, 5}},
                                                                  {"late-autumn", {3, 7}}};
  for (const auto& [name, band] : bands) {
    const Curve& depth = phase_named(profile, name)->depth;
    INFO(name);
    CHECK(depth(band.first) == 1.0);
    CHECK(depth((band.first + band.second) / 2) == 1.0);
    CHECK(depth(band.second) == 1.0);
    CHECK(depth(band.first - 0.1) < 1.0);
    CHECK(depth(band.second + 0.1) < 1.0);
  }
}

TEST_CASE("lures follow the trade: the season's classes, at their running depths") {
  const Profile& profile = species("muskellunge");
  const auto classes = [&](const char* phase) {
    std::set<LureClass> result;
    for (const Lure& lure : phase_named(profile, phase)->lures) result.insert(lure.lure);
    return result;
  };
  // common practice, no source
  CHECK(phase_named(profile, "post-spawn")->lures[0].lure == LureClass::inline_spinner);
  CHECK(phase_named(profile, "post-spawn")->lures[1].lure == LureClass::topwater);
  for (const char* cool : {"early-autumn", "late-autumn", "cold"}) {
    CHECK(classes(cool).count(LureClass::soft_plastic) == 1);
    CHECK(classes(cool).count(LureClass::crankbait) == 1);
  }
  for (const Phase& phase : profile.phases) CHECK(classes(phase.name.c_str()).count(LureClass::jerkbait) == 1);
  for (const auto name : species_names()) {
    for (const Phase& phase : species(name).phases) {
      for (const Lure& lure : phase.lures) {
        CHECK(lure.run_from <= lure.run_to);
        CHECK(lure.run_to <= (species(name).reach ? species(name).reach->value : Metres(8)));
        CHECK_FALSE(lure.retrieve.empty());
      }
    }
  }
}

TEST_CASE("every number of every profile says where it comes from") {
  const std::set<std::string> marks = {"published", "common-practice", "design", "memory"};
  const auto check = [&](const Source& source) {
    CHECK_FALSE(source.text.empty());
    CHECK(marks.count(source.mark) == 1);
  };
  for (const auto name : species_names()) {
    const Profile& profile = species(name);
    INFO(name);
    if (profile.caution_from) check(profile.caution_from->source);
    if (profile.stop_from) check(profile.stop_from->source);
    CHECK_FALSE(profile.handling.empty());
    CHECK(profile.text.find("[sources]") != std::string::npos);
    for (const Phase& phase : profile.phases) {
      int ends = 0;
      for (const auto& interval : {phase.rising, phase.falling}) {
        if (!interval) continue;
        ends += std::isfinite(interval->from.value()) ? 1 : 0;
        ends += std::isfinite(interval->to.value()) ? 1 : 0;
      }
      CHECK(static_cast<int>(phase.interval_sources.size()) == ends);
      for (const auto& [what, source] : phase.interval_sources) check(source);
      for (const auto& weight : phase.weights) check(weight.second.source);
      for (const Lure& lure : phase.lures) check(lure.source);
      CHECK(phase.fishable == phase.stop_reason.empty());
      CHECK(phase.fishable == phase.look_again.empty());
    }
  }
}

TEST_CASE("weights sum to 1 and no curve damns a place in the water") {
  // The score is a geometric product: a single 0 would wipe out all else.
  for (const auto name : species_names()) {
    for (const Phase& phase : species(name).phases) {
      INFO(name << " " << phase.name);
      double sum = 0;
      for (const auto& [factor, weight] : phase.weights) sum += weight.value;
      CHECK(sum == Approx(1.0).margin(1e-6));
      for (const Curve* curve :
           {&phase.depth, &phase.edge_grade, &phase.weed_density, &phase.deep_water, &phase.cover, &phase.meeting}) {
        REQUIRE_FALSE(curve->points.empty());
        double best = 0;
        for (const auto& [x, y] : curve->points) {
          CHECK(y >= 0.05);
          best = std::max(best, y);
        }
        // weeds alone are never the whole of a good edge; every other factor can be fully met
        if (curve == &phase.weed_density) {
          CHECK(best >= 0.7);
        } else {
          CHECK(best == 1.0);
        }
      }
    }
  }
}

TEST_CASE("what rests on memory is named") {
  const auto& list = species("muskellunge").unverified;
  const auto mentions = [&](const char* words) {
    return std::any_of(list.begin(), list.end(),
                       [&](const auto& line) { return line.find(words) != std::string::npos; });
  };
  CHECK(mentions("32.2 C"));
  CHECK(mentions("10 seconds"));
  CHECK_FALSE(mentions("spawn, rising"));
}

TEST_CASE("a curve is straight between its points and level beyond") {
  const Curve curve{{{1, 0.2}, {3, 1}, {5, 0.4}}, {}};
  CHECK(curve(0) == 0.2);
  CHECK(curve(1) == 0.2);
  CHECK(curve(2) == Approx(0.6));
  CHECK(curve(3) == Approx(1.0));
  CHECK(curve(4.5) == Approx(0.55));
  CHECK(curve(9) == 0.4);
  CHECK(std::isnan(curve(std::nan(""))));
  CHECK(Curve{}(7) == 1.0);
}

TEST_CASE("profiles may be asked for from several threads") {
  std::vector<const Profile*> seen(4);
  std::vector<std::thread> threads;
  for (auto& slot : seen) threads.emplace_back([&slot] { slot = &species("northern-pike"); });
  for (auto& thread : threads) thread.join();
  for (const Profile* profile : seen) CHECK(profile == seen[0]);
}
