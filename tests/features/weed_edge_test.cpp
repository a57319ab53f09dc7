// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
// Where plants stop short of the light: at a break, in the waves, on rock, where the level swings; and how the edge
// bends. Lakes whose answer is a formula.
#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/terrain/fetch.hpp"
#include "castplan/terrain/waves.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

const WeedKnowledge kFour{Metres(4), WeedSource::predicted, Metres(3.4), Metres(6.7), Metres(6.7)};

std::vector<Feature> edges(const Lake& lake, WeedEdge edge, const WeedKnowledge& weeds = kFour,
                           std::span<const MappedStructure> structure = {}, std::optional<LevelSwing> swing = {}) {
  Ground ground{lake, {}, {}, weeds, structure, {}, {}};
  ground.swing = swing;
  return edges_of(find_features(std::move(ground), {}), edge);
}

const WeedLine& line_of(const Feature& feature) { return std::get<WeedLine>(feature.details); }

MappedStructure rock_at(double from_degrees, double to_degrees, double near, double far) {
  Ring ring;
  for (double a = from_degrees; a <= to_degrees; a += 1) {
    ring.push_back(XY{std::cos(a * M_PI / 180), std::sin(a * M_PI / 180)} * near);
  }
  for (double a = to_degrees; a >= from_degrees; a -= 1) {
    ring.push_back(XY{std::cos(a * M_PI / 180), std::sin(a * M_PI / 180)} * far);
  }
  ring.push_back(ring.front());
  return {"rock", "", "", "rock.shp", Polygons{{ring, {}}}};
}

}  // namespace

TEST_CASE("a floor steeper than 20 % above the weed depth: the edge lies at its top") {
  // shelf of 2 m, ramp to 10 m between r = 210 and r = 190 (40 %): depth 4 lies at r = 205, the break at 210
  for (const double cell : {2.0, 5.0}) {
    INFO("cells of " << cell << " m");
    const Lake lake = lake_of(ring_break(Metres(200), Metres(2), Metres(10), Metres(20), Metres(300), Metres(cell)));
    const auto lines = edges(lake, WeedEdge::outside);
    const auto [low, high] = radii(lines);
    CHECK(low > 210 - 2.5);
    CHECK(high < 210 + 2.5);
    CHECK(total_length<WeedLine>(lines) == Approx(2 * M_PI * 210).epsilon(0.01));
    for (const Feature& each : lines) {
      const WeedLine& edge = line_of(each);
      CHECK(edge.at_break);
      CHECK(edge.depth.value() == Approx(2).margin(0.4));  // a metre on the ramp
      CHECK(edge.density == Approx(1).margin(0.02));       // of the shelf, which is level
      // however far the light reaches, the plants end here
      CHECK(edge.depth_high == edge.depth);
      CHECK(*edge.depth_low <= edge.depth);
      CHECK_FALSE(edge.deepest);
    }
  }
}

TEST_CASE("a ramp gentler than 20 % holds plants down to the weed depth") {
  // 8 m over 80 m is 10 %: depth 4 lies a quarter down the ramp, at r = 220; (20 - 10) / 15 of the plants stand
  const Lake lake = lake_of(ring_break(Metres(200), Metres(2), Metres(10), Metres(80), Metres(330), Metres(5)));
  const auto lines = edges(lake, WeedEdge::outside);
  const auto [low, high] = radii(lines);
  CHECK(low > 220 - 1);
  CHECK(high < 220 + 1);
  for (const Feature& each : lines) {
    CHECK_FALSE(line_of(each).at_break);
    CHECK(line_of(each).density == Approx(10.0 / 15).margin(0.03));
    CHECK(line_of(each).lowered_by == std::vector{WeedLoss::steepness});
    CHECK(line_of(each).depth_low == Metres(3.4));
    CHECK(line_of(each).depth_high == Metres(6.7));
    CHECK(line_of(each).deepest == Metres(6.7));
  }
}

TEST_CASE("a strip of plants below a steep floor is an edge of its own only where it is wide") {
  // from the shore: shelf of 1.5 m to r = 300, ramp of 30 % to 5.5 m at 286.7, then 0.5 m down over `strip` to the
  // depth of the light, and on at that grade
  const WeedKnowledge six{Metres(6), WeedSource::predicted};
  const double foot = 300 - 4 / 0.3;
  const auto lake_with = [&](double strip) {
    return lake_of(filled(frame_about(Metres(420), Metres(4)), [&](XY at) {
      const double r = std::hypot(at.x, at.y);
      if (r >= 400) return static_cast<double>(kLand.value());
      if (r >= 300) return 1.5;
      if (r >= foot) return 1.5 + 0.3 * (300 - r);
      return std::min(12.0, 5.5 + 0.5 * (foot - r) / strip);
    }));
  };
  const auto narrow = edges(lake_with(10), WeedEdge::outside, six);
  CHECK(total_length<WeedLine>(narrow) == Approx(2 * M_PI * 300).epsilon(0.015));
  for (const Feature& each : narrow) {
    CHECK(line_of(each).at_break);
    CHECK(std::hypot(each.anchor.x, each.anchor.y) == Approx(300).margin(3));
  }
  const auto wide = edges(lake_with(60), WeedEdge::outside, six);
  CHECK(total_length<WeedLine>(wide) == Approx(2 * M_PI * (foot - 60)).epsilon(0.01));
  for (const Feature& each : wide) {
    CHECK_FALSE(line_of(each).at_break);
    CHECK(std::hypot(each.anchor.x, each.anchor.y) == Approx(foot - 60).margin(2));
  }
}

TEST_CASE("a bank that falls steeply from the shore past the weed depth has no plants") {
  // a cone of 40 % all round
  const Lake steep = lake_of(filled(frame_about(Metres(260), Metres(4)), [](XY at) {
    const double r = std::hypot(at.x, at.y);
    return r < 240 ? std::min(20.0, 0.4 * (240 - r)) : static_cast<double>(kLand.value());
  }));
  const auto all = edges(steep, WeedEdge::outside);
  CHECK_FALSE(all.empty());
  for (const Feature& each : all) {
    CHECK(line_of(each).density == 0);
    CHECK(line_of(each).lowered_by == std::vector{WeedLoss::steepness});
  }
  // the eastern quarter of it so, the rest a slope of 4 %: gaps in the edge there, a quarter of a circle together
  const Lake quarter = lake_of(filled(frame_about(Metres(500), Metres(5)), [](XY at) {
    const double r = std::hypot(at.x, at.y);
    if (r >= 480) return static_cast<double>(kLand.value());
    return std::min(20.0, (at.x > std::abs(at.y) ? 0.4 : 0.04) * (480 - r));
  }));
  double bare = 0;
  for (const Feature& each : edges(quarter, WeedEdge::outside)) {
    for (const WeedGap& gap : line_of(each).gaps) {
      CHECK(gap.why == WeedLoss::steepness);
      CHECK(std::max(gap.from.x, gap.to.x) > 250);
      bare = std::max(bare, gap.length.value());
    }
  }
  CHECK(bare == Approx(M_PI / 2 * 470).epsilon(0.15));  // it runs on up and down the step between the slopes
}

TEST_CASE("the inside edge of a round lake lies where the waves let go of the bottom") {
  // a cone of 2 % in a round lake of 2 km: mean depth a third of the greatest (16 m at the middle of an 800 m cone)
  const double shore = 800, grade = 0.02;
  const Lake lake = lake_of(filled(frame_about(Metres(shore + 40), Metres(5)), [&](XY at) {
    const double r = std::hypot(at.x, at.y);
    return r < shore ? grade * (shore - r) : static_cast<double>(kLand.value());
  }));
  // by hand: place p from the middle, radials are chords, the wind from across; the edge is where g T^2 / 4 pi of the
  // waves of 5 m/s (Shore Protection Manual, 3-40, over the mean depth) is the depth
  const auto base_at = [&](double p) {
    double weighed = 0, weights = 0;
    for (int i = -7; i <= 7; ++i) {
      const double a = i * 6 * M_PI / 180;
      weighed += std::cos(a) * (p * std::cos(a) + std::sqrt(shore * shore - p * p * std::sin(a) * std::sin(a)));
      weights += std::cos(a);
    }
    const double ua = 0.71 * std::pow(5.0, 1.23), g = 9.81, x = g * weighed / weights / (ua * ua);
    const double b = std::tanh(0.833 * std::pow(g * (grade * shore / 3) / (ua * ua), 0.375));
    const double period = 7.54 * b * std::tanh(0.0379 * std::cbrt(x) / b) * ua / g;
    return g * period * period / (4 * M_PI);
  };
  double p = shore;
  for (int i = 0; i < 50; ++i) p = shore - base_at(p) / grade;
  const auto lines = edges(lake, WeedEdge::inside);
  CHECK(total_length<WeedLine>(lines) == Approx(2 * M_PI * p).epsilon(0.01));
  for (const Feature& each : lines) {
    CHECK(line_of(each).depth.value() == Approx(grade * (shore - p)).margin(0.01));
    CHECK(line_of(each).bare_above == WeedLoss::scour);
    CHECK(std::hypot(each.anchor.x, each.anchor.y) == Approx(p).margin(1.5));
    CHECK_FALSE(line_of(each).depth_low);
    CHECK(each.confidence < 0.5);
  }
  CHECK(grade * (shore - p) > 0.7);
  CHECK(edges(lake, WeedEdge::outside).size() >= 10);
  // an edge of the light above that depth is bare too
  CHECK(edges(lake, WeedEdge::outside, {Metres(0.7), WeedSource::predicted}).empty());
}

TEST_CASE("mapped rock is bare: a gap of its length in the edge") {
  const Lake lake = lake_of(bowl(Metres(400), Metres(20), Metres(5), Metres(50)));
  const double radius = 400 * std::sqrt(1 - 4.0 / 20);
  const MappedStructure wide = rock_at(60, 90, radius - 30, radius + 20);
  const double arc = 30 * M_PI / 180 * radius;  // 187 m
  const auto lines = edges(lake, WeedEdge::outside, kFour, {&wide, 1});
  CHECK(total_length<WeedLine>(lines) == Approx(2 * M_PI * radius - arc).margin(12));
  int told = 0;
  for (const Feature& each : lines) {
    CHECK(line_of(each).not_assessed == std::vector{WeedLoss::level_swing});
    for (const WeedGap& gap : line_of(each).gaps) {
      CHECK(gap.why == WeedLoss::rock);
      CHECK(gap.length.value() == Approx(arc).margin(12));
      const XY end = XY{std::cos(M_PI / 3), std::sin(M_PI / 3)} * radius;
      CHECK(std::min(distance(gap.from, end), distance(gap.to, end)) < Metres(12));
      ++told;
    }
  }
  CHECK(told == 2);  // by the pieces on both sides of it
  // one shorter than a gap stays in its line, and takes its share of the density
  const MappedStructure narrow = rock_at(70, 73, radius - 30, radius + 20);  // 19 m
  const auto whole = edges(lake, WeedEdge::outside, kFour, {&narrow, 1});
  CHECK(total_length<WeedLine>(whole) == Approx(2 * M_PI * radius).epsilon(0.003));
  int lowered = 0;
  for (const Feature& each : whole) {
    const auto& by = line_of(each).lowered_by;
    if (std::find(by.begin(), by.end(), WeedLoss::rock) == by.end()) continue;
    ++lowered;
    CHECK(line_of(each).density < line_of(whole.back()).density + 1e-9);
    CHECK(line_of(each).gaps.size() == 1);
  }
  CHECK(lowered == 1);
}

TEST_CASE("a level that swings more than 1.5 m a year leaves few plants in its zone") {
  const Lake lake = lake_of(bowl(Metres(400), Metres(20), Metres(5), Metres(50)));
  const double usual = line_of(edges(lake, WeedEdge::outside).at(0)).density;
  const auto density_with = [&](Metres range, Metres down_to, WeedSource source = WeedSource::predicted) {
    return line_of(edges(lake, WeedEdge::outside, {Metres(4), source}, {}, LevelSwing{range, down_to}).at(0));
  };
  CHECK(density_with(Metres(1.4), Metres(1.4)).density == Approx(usual));
  CHECK(density_with(Metres(5), Metres(5)).density == Approx(0.2 * usual));
  CHECK(density_with(Metres(5), Metres(5)).lowered_by == std::vector{WeedLoss::steepness, WeedLoss::level_swing});
  // seen there, or below the zone: they stand
  CHECK(density_with(Metres(5), Metres(5), WeedSource::observed).density == Approx(usual));
  CHECK(density_with(Metres(2.5), Metres(2.5)).density == Approx(usual));
  CHECK(density_with(Metres(2.5), Metres(2.5)).not_assessed == std::vector{WeedLoss::rock});
  // the dense plants begin at the bottom of the zone, below the waves
  const auto inside = edges(lake, WeedEdge::inside, kFour, {}, LevelSwing{Metres(2.5), Metres(2.5)});
  CHECK(total_length<WeedLine>(inside) == Approx(2 * M_PI * 400 * std::sqrt(1 - 2.5 / 20)).epsilon(0.01));
  for (const Feature& each : inside) CHECK(line_of(each).bare_above == WeedLoss::level_swing);
}

TEST_CASE("points and turns of an edge whose contours are a wave") {
  // a slope to the south of a straight shore; contours swing by 60 m north and south every 300 m
  const Frame frame{{0, 0}, Metres(5), 200, 360};
  const Lake lake = lake_of(filled(frame, [](XY at) {
    const double below = -at.y - 80 - 60 * std::sin(2 * M_PI * at.x / 300);
    return below > 0 ? 0.03 * below : static_cast<double>(kLand.value());
  }));
  const auto lines = edges(lake, WeedEdge::outside);
  int points = 0, turns = 0;
  for (const Feature& each : lines) {
    for (const XY at : line_of(each).points) {
      ++points;  // furthest to the south where the sine is 1: at 75, 375, ... m
      CHECK(std::abs(std::remainder(at.x - 75, 300)) < 10);
    }
    for (const XY at : line_of(each).turns) {
      ++turns;
      CHECK(std::abs(std::remainder(at.x - 225, 300)) < 10);
    }
  }
  // six waves in 1800 m, those within a bend of the map's edge perhaps left out
  CHECK(points >= 4);
  CHECK(points <= 6);
  CHECK(turns >= 4);
  CHECK(turns <= 6);
}

TEST_CASE("weed lines of lakes of odd form") {
  // round an island: depth 6 (1 - ((r - 200) / 100)^2), so that the 4 m line is two circles, 200 +- 100 sqrt(1/3)
  const Lake ring = lake_of(filled(frame_about(Metres(330), Metres(5)), [](XY at) {
    const double away = (std::hypot(at.x, at.y) - 200) / 100;
    return std::abs(away) < 1 ? 6 * (1 - away * away) : static_cast<double>(kLand.value());
  }));
  CHECK(total_length<WeedLine>(edges(ring, WeedEdge::outside)) == Approx(2 * M_PI * 400).epsilon(0.005));
  // all shallower than the weed depth: no outside edge, plants anywhere below the waves
  const Lake shallow = lake_of(bowl(Metres(800), Metres(3), Metres(10), Metres(50)));
  CHECK(edges(shallow, WeedEdge::outside).empty());
  for (const Feature& each : edges(shallow, WeedEdge::inside)) CHECK(line_of(each).depth < Metres(1.5));
  for (const auto& [rows, cols] : {std::pair(1, 1), std::pair(1, 50), std::pair(50, 1), std::pair(2, 2)}) {
    const Lake few = lake_of(Grid<Metres32>(Frame{{0, 0}, Metres(5), rows, cols}, Metres32(5)));
    CHECK(edges(few, WeedEdge::outside).empty());
    CHECK(edges(few, WeedEdge::inside).empty());
  }
}
