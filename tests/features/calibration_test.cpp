// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Confidence is a chance, and is held to it: on noisy copies of lakes with a closed form, features with a confidence of
// 0.8 and more must be real at least 80 % of the time, and at least 70 % of the true features with 2 m of relief or
// more must reach 0.8. What is real follows from the formulas below, never from what is found without noise.
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <iostream>
#include <map>
#include <string>

#include "castplan/geo/planar.hpp"
#include "support/detecting.hpp"
#include "support/noise.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

#if defined(__SANITIZE_ADDRESS__)
// slow: one copy of each lake, under the most noise
constexpr unsigned kSeeds = 1;
constexpr std::array kErrors{0.4};
#else
constexpr unsigned kSeeds = 2;
constexpr std::array kErrors{0.1, 0.2, 0.4};
#endif

/// A form that the formula tells of.
struct Form {
  Kind kind;
  double relief;                           ///< metres; NaN for what has none
  std::function<bool(const Feature&)> is;  ///< whether a feature of the kind is this one
  Points samples;                          ///< places on it: each is looked for as a feature of its own
  double within = 25;                      ///< metres from a place within which it is found
  double asked = 1;                        ///< least relief that counts
  bool plain = false;                      ///< a wall, or the deepest place: always there, and not counted
};

/// A lake, all of its forms of some kinds, and where nothing is said.
struct Known {
  std::string name;
  Grid<Metres32> values;
  std::vector<Form> forms;
  std::vector<Kind> kinds;
  std::function<bool(const Feature&)> counts = [](const Feature&) { return true; };
};

double radius_of(XY at) { return std::hypot(at.x, at.y); }

Points circle(double radius) {
  Points places;
  for (int i = 0; i < 8; ++i) {
    places.push_back({radius * std::cos(M_PI * (i + 0.5) / 4), radius * std::sin(M_PI * (i + 0.5) / 4)});
  }
  return places;
}

Form ring(double radius, double relief, double within, double asked = 1.2) {
  const auto is = [=](const Feature& each) { return std::abs(radius_of(each.anchor) - radius) <= within; };
  return {Kind::drop_off, relief, is, circle(radius), within, asked};
}

/// The wall at the shore.
Form wall(double radius, double height) {
  Form form = ring(radius, height, 15);
  form.plain = true;
  return form;
}

Form place(Kind kind, XY at, double relief, double within = 25) {
  return {kind, relief, [=](const Feature& each) { return distance(each.anchor, at).value() <= within; }, {at}, within};
}

/// The deepest pool of the lake, which has no sill, lies somewhere on this floor.
Form deepest(const std::function<bool(XY)>& floor) {
  const auto is = [=](const Feature& each) { return !std::get<Pool>(each.details).sill_depth && floor(each.anchor); };
  return {Kind::pool, NAN, is, {}, 25, 1, true};
}

// What a round lake with a level floor has none of.
const std::vector<Kind> kAll{Kind::pool,  Kind::drop_off,    Kind::hump,    Kind::saddle, Kind::channel,
                             Kind::point, Kind::inside_turn, Kind::narrows, Kind::bay,    Kind::hazard};
const std::vector<Kind> kWithoutBends{Kind::pool,    Kind::drop_off, Kind::saddle, Kind::channel,
                                      Kind::narrows, Kind::bay,      Kind::hazard};

/// A ring-shaped break of 25 % between a shelf of 2 m and a level basin.
Known break_lake(double relief) {
  const double width = relief / 0.25;
  return {"ring break",
          ring_break(Metres(150), Metres(2), Metres(2 + relief), Metres(width), Metres(300), Metres(5)),
          {ring(150, relief, width / 2 + 10), deepest([](XY at) { return radius_of(at) < 160; })},
          kAll};
}

const std::array kReliefs{0.5, 0.8, 1.1, 1.4, 1.8, 2.2, 2.8, 3.5};
XY on_ring(std::size_t i) {
  const double angle = M_PI * (static_cast<double>(i) + 0.3) / 4;
  return {220 * std::cos(angle), 220 * std::sin(angle)};
}

/// Gaussian humps, or pits, of eight reliefs on a level floor 9 m deep, 8 sigma apart; their flanks are 11 % at most.
Known bumps_lake(bool humps) {
  std::vector<Gauss> bumps;
  std::vector<Form> forms{wall(420, 9)};
  for (std::size_t i = 0; i < kReliefs.size(); ++i) {
    bumps.push_back({on_ring(i), Metres(humps ? -kReliefs[i] : kReliefs[i]), Metres(20)});
    forms.push_back(place(humps ? Kind::hump : Kind::pool, on_ring(i), kReliefs[i]));
  }
  // between the humps the floor is level: its deepest place is where the noise puts it
  if (humps) forms.push_back(deepest([](XY) { return true; }));
  // the level floor half-way between two pits is a bar that parts them: nothing is said of saddles there
  std::vector<Kind> kinds = kAll;
  if (!humps) std::erase(kinds, Kind::saddle);
  return {humps ? "humps" : "pits", gaussian_pits(Metres(9), bumps, Metres(420), Metres(5)), forms, kinds};
}

/// Two equal Gaussian humps of 6 m, sigma 40 m, 2 a apart on 10 m. Half-way both add up: the pass stands 12 exp(-a^2 /
/// 3200) over the floor, and each top, moved by less than a metre, 6 (1 + exp(-a^2 / 800)).
Known saddle_lake(double a) {
  const double pass = 12 * std::exp(-a * a / 3200), top = 6 * (1 + std::exp(-a * a / 800));
  return {"saddle",
          gaussian_pits(Metres(10), {{{-a, 0}, Metres(-6), Metres(40)}, {{a, 0}, Metres(-6), Metres(40)}}, Metres(400),
                        Metres(5)),
          {wall(400, 10), place(Kind::saddle, {0, 0}, std::min(pass, top - pass)), deepest([](XY) { return true; })},
          kWithoutBends};
}

/// A straight bed of Gaussian section, sigma 16 m, in a floor of 4 m; flanks of 11 % at most.
Known trench_lake(double relief) {
  const Line bed{{-250, 0}, {250, 0}};
  Form channel{Kind::channel, relief, [](const Feature& each) { return std::abs(each.anchor.y) < 20; }, {}, 20};
  for (const double x : {-150.0, -50.0, 50.0, 150.0}) channel.samples.push_back({x, 0});
  return {"trench",
          filled(frame_about(Metres(420), Metres(5)),
                 [&](XY at) {
                   if (radius_of(at) >= 400) return static_cast<double>(kLand.value());
                   const double d = distance(at, bed).value();
                   return 4 + relief * std::exp(-d * d / (2 * 16 * 16));
                 }),
          {wall(400, 4), channel, deepest([](XY at) { return std::abs(at.y) < 25; })},
          kWithoutBends};
}

/// Depth = 6 % of the way north of the shore y = height cos(2 pi x / 320), down to 9 m. A quarter of a wave to each
/// side of a crest, or of a trough, the floor is deeper, or less deep, by 0.06 height. Nothing is said near the walls.
Known wavy_lake(double height) {
  std::vector<Form> forms;
  for (int i = -3; i <= 3; ++i) {
    const bool crest = i % 2 == 0;
    const auto is = [i](const Feature& each) { return std::abs(each.anchor.x - 160 * i) < 30; };
    forms.push_back(
        {crest ? Kind::point : Kind::inside_turn, 0.06 * height, is, {{160.0 * i, 60}}, 60, crest ? 1.0 : 2.0});
  }
  return {"wavy shore",
          filled(frame_about(Metres(740), Metres(5)),
                 [&](XY at) {
                   const double north = at.y - height * std::cos(2 * M_PI * at.x / 320);
                   if (north <= 0 || at.y > 500 || std::abs(at.x) > 720) return static_cast<double>(kLand.value());
                   return std::min(9.0, 0.06 * north);
                 }),
          forms,
          {Kind::point, Kind::inside_turn},
          [](const Feature& each) { return std::abs(each.anchor.x) < 560 && each.anchor.y < 300; }};
}

Known hourglass_lake() {
  return {"hourglass",
          filled(frame_about(Metres(300), Metres(5)),
                 [](XY at) {
                   const bool water = std::abs(at.x) < 220 && std::abs(at.y) < 40 + at.x * at.x / 500;
                   return water ? 5.0 : static_cast<double>(kLand.value());
                 }),
          {place(Kind::narrows, {0, 0}, NAN, 50)},  // x^2 / 500 is less than a cell as far as that
          {Kind::narrows}};
}

/// A circle of 80 m joined by a neck of 60 m to a larger lake.
Known keyhole_lake() {
  const double mouth = 200 - std::sqrt(80 * 80 - 30 * 30) - 60;
  return {"keyhole",
          filled(frame_about(Metres(520), Metres(5)),
                 [&](XY at) {
                   if (std::abs(at.x) < 400 && at.y < mouth && at.y > mouth - 400) return 6.0;
                   const bool neck = std::abs(at.x) < 30 && at.y >= mouth && at.y < 200;
                   return neck || radius_of(at - XY{0, 200}) < 80 ? 2.0 : static_cast<double>(kLand.value());
                 }),
          {place(Kind::bay, {0, mouth}, NAN)},
          {Kind::bay}};
}

/// Gaussian shoals with tops from 0.5 to 2.6 m. They count when less deep than draft, margin and error: 1.05 m + error.
Known shoal_lake(double error) {
  std::vector<Gauss> bumps;
  std::vector<Form> forms;
  const std::array tops{0.5, 0.9, 1.2, 1.4, 1.6, 1.9, 2.2, 2.6};
  for (std::size_t i = 0; i < tops.size(); ++i) {
    bumps.push_back({on_ring(i), Metres(tops[i] - 6), Metres(25)});
    if (tops[i] < 1.05 + error) forms.push_back(place(Kind::hazard, on_ring(i), NAN));
  }
  return {"shoals", gaussian_pits(Metres(6), bumps, Metres(420), Metres(5)), forms, {Kind::hazard}};
}

std::vector<Known> known_lakes(double error) {
  std::vector<Known> all{bumps_lake(true), bumps_lake(false), hourglass_lake(), keyhole_lake(), shoal_lake(error)};
  for (const double relief : {0.9, 1.5, 2.2, 3.0}) all.push_back(break_lake(relief));
  for (const double a : {50.0, 54.0, 60.0, 66.0}) all.push_back(saddle_lake(a));
  for (const double relief : {0.8, 1.4, 2.2, 3.0}) all.push_back(trench_lake(relief));
  for (const double height : {45.0, 37.0, 12.0}) all.push_back(wavy_lake(height));
  return all;
}

bool counts(const Form& form) { return std::isnan(form.relief) || form.relief >= form.asked; }

struct Bin {
  int count = 0, real = 0;
};
struct Reach {
  int forms = 0, sure = 0;
};

struct Table {
  std::array<Bin, 5> bins;
  std::map<Kind, Bin> sure;       ///< features of 0.8 and more, by kind
  std::map<Kind, Reach> reached;  ///< true features of 2 m of relief and more, by kind

  void add(const Known& known, const std::vector<Feature>& features) {
    for (const Feature& each : features) {
      if (std::find(known.kinds.begin(), known.kinds.end(), each.kind) == known.kinds.end()) continue;
      if (!known.counts(each)) continue;
      const auto form = std::find_if(known.forms.begin(), known.forms.end(), [&](const Form& one) {
        return one.kind == each.kind && counts(one) && one.is(each);
      });
      const bool real = form != known.forms.end();
      if (real && form->plain) continue;
      take(bins[std::min<std::size_t>(4, static_cast<std::size_t>(each.confidence * 5))], real);
      if (each.confidence >= 0.8) take(sure[each.kind], real);
    }
    for (const Form& form : known.forms) {
      if (!(form.relief >= 2) || !counts(form) || form.plain) continue;
      for (const XY at : form.samples) {
        Reach& reach = reached[form.kind];
        ++reach.forms;
        reach.sure += std::any_of(features.begin(), features.end(), [&](const Feature& each) {
          return each.kind == form.kind && each.confidence >= 0.8 && form.is(each) && passes(each, at, form.within);
        });
      }
    }
  }
  static void take(Bin& bin, bool real) {
    ++bin.count;
    bin.real += real ? 1 : 0;
  }
  static bool passes(const Feature& feature, XY at, double within) {
    const auto* lines = std::get_if<Lines>(&feature.geometry);
    if (lines == nullptr) return distance(feature.anchor, at).value() <= within;
    return std::any_of(lines->begin(), lines->end(),
                       [&](const Line& line) { return distance(at, line).value() <= within; });
  }
};

Table measured(bool correlated) {
  Table table;
  for (const double error : kErrors) {
    for (const Known& known : known_lakes(error)) {
      for (unsigned seed = 1; seed <= kSeeds; ++seed) {
        Lake lake = lake_of(known.values);
        lake.depth = noisy(std::move(lake.depth), error, correlated, seed);
        lake.depth_error = Metres(error);
        lake.depth_error_known = true;
        table.add(known, detect(lake));
      }
    }
  }
  return table;
}

void print(const Table& table, const std::string& noise) {
  for (std::size_t i = 0; i < table.bins.size(); ++i) {
    std::cout << noise << ", confidence " << 0.2 * static_cast<double>(i) << " to " << 0.2 * static_cast<double>(i + 1)
              << ": real " << table.bins[i].real << " of " << table.bins[i].count << "\n";
  }
  for (const auto& [kind, bin] : table.sure) {
    std::cout << noise << ", 0.8 and more, " << name_of(kind) << ": real " << bin.real << " of " << bin.count << "\n";
  }
  for (const auto& [kind, reach] : table.reached) {
    std::cout << noise << ", true with 2 m and more, " << name_of(kind) << ": " << reach.sure << " of " << reach.forms
              << " reach 0.8\n";
  }
}

}  // namespace

TEST_CASE("confidence is calibrated on noisy lakes with a closed form") {
  const bool correlated = GENERATE(false, true);
  const Table table = measured(correlated);
  print(table, correlated ? "noise over 25 m" : "white noise");
  CHECK(table.bins[4].count >= 25 * static_cast<int>(kSeeds * kErrors.size()));
  CHECK(table.bins[4].real >= 0.8 * table.bins[4].count);
  for (const auto& [kind, bin] : table.sure) {
    INFO(name_of(kind));
    CHECK(bin.real >= 0.8 * bin.count);
  }
  Reach all;
  for (const auto& [kind, reach] : table.reached) {
    all.forms += reach.forms;
    all.sure += reach.sure;
  }
  CHECK(all.forms >= 25 * static_cast<int>(kSeeds * kErrors.size()));
  CHECK(all.sure >= 0.7 * all.forms);
}
