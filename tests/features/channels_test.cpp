// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/geo/planar.hpp"
#include "support/detecting.hpp"
#include "support/noise.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

std::vector<Feature> channels(const Lake& lake) { return of_kind(detect(lake), Kind::channel); }
const Channel& known(const Feature& feature) { return std::get<Channel>(feature.details); }

/// The middle of a meandering bed, y = swing sin(2 pi x / wave) for |x| <= reach, every 0.5 m of x.
struct Meander {
  double swing, wave, reach;

  [[nodiscard]] double y(double x) const { return swing * std::sin(2 * M_PI * x / wave); }
  [[nodiscard]] Line line() const {
    Line points;
    for (double x = -reach; x <= reach; x += 0.5) points.push_back({x, y(x)});
    return points;
  }
  /// Length of the curve, the integral of sqrt(1 + y'^2) by Simpson's rule (an elliptic integral of the second kind).
  [[nodiscard]] double length() const {
    const int steps = 4000;
    const double h = 2 * reach / steps, k = 2 * M_PI / wave;
    double sum = 0;
    for (int i = 0; i <= steps; ++i) {
      const double rise = swing * k * std::cos(k * (-reach + i * h));
      sum += std::hypot(1, rise) * (i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2);
    }
    return sum * h / 3;
  }
};

/// A round lake 4 m deep with walls, and in it a bed of `deep` metres with sides exp(-d^2 / (2 sigma^2)) about a line.
Grid<Metres32> trench(const Line& bed, double deep, double sigma, Metres cell) {
  return filled(frame_about(Metres(420), cell), [&](XY at) {
    if (std::hypot(at.x, at.y) >= 400) return static_cast<double>(kLand.value());
    const double d = distance(at, bed).value();
    return 4 + deep * std::exp(-d * d / (2 * sigma * sigma));
  });
}

Lines lines_of(const std::vector<Feature>& features) {
  Lines all;
  for (const Feature& feature : features) {
    const auto& lines = std::get<Lines>(feature.geometry);
    all.insert(all.end(), lines.begin(), lines.end());
  }
  return all;
}

}  // namespace

TEST_CASE("a meandering trench") {
  const Meander meander{40, 250, 250};
  const double cell = GENERATE(2.0, 5.0);
  INFO("cells of " << cell << " m");
  const auto found = channels(lake_of(trench(meander.line(), 3, 10, Metres(cell))));
  REQUIRE_FALSE(found.empty());
  double whole = 0;
  for (const Feature& feature : found) {
    whole += known(feature).length.value();
    CHECK(known(feature).length <= Metres(300.5));
    CHECK(known(feature).depth.value() == Approx(7).margin(0.25));  // means over blocks and 15 m of bed round the bends
    CHECK(known(feature).relief.value() == Approx(3).margin(0.25));
    // half of the relief is climbed at d = sigma sqrt(2 ln 2) on either side
    CHECK(known(feature).width.value() == Approx(2 * 10 * std::sqrt(2 * std::log(2.0))).margin(4));
    for (const XY at : std::get<Lines>(feature.geometry).front()) {
      // to a cell along the bed, and the round ends add little
      CHECK(distance(at, meander.line()) < Metres(std::abs(at.x) < meander.reach - 5 ? std::max(cell, 3.0) : 12.0));
    }
  }
  CHECK(whole == Approx(meander.length()).margin(30));
  const PreparedShape shape{Geometry{lines_of(found)}};
  for (const XY at : meander.line()) {
    if (std::abs(at.x) < 235) CHECK(shape.distance_to(at) < Metres(5));
  }
}

TEST_CASE("the outer bank of each bend is marked") {
  // bends at the crests x = +-62.5, +-187.5, outside of them half a bed further out
  const Meander meander{40, 250, 250};
  const auto found = channels(lake_of(trench(meander.line(), 3, 10, Metres(5))));
  Points bends;
  for (const Feature& feature : found) {
    bends.insert(bends.end(), known(feature).bends.begin(), known(feature).bends.end());
  }
  const double half = 10 * std::sqrt(2 * std::log(2.0));
  for (const double x : {-62.5, 62.5}) {
    const XY crest{x, meander.y(x) + std::copysign(half, meander.y(x))};
    CHECK(std::any_of(bends.begin(), bends.end(), [&](XY at) { return distance(at, crest) < Metres(10); }));
  }
  for (const XY at : bends) CHECK(std::abs(at.y) > 40);
}

TEST_CASE("a channel counts from one metre of banks and 100 m on") {
  const auto count = [](double reach, double deep) {
    return channels(lake_of(trench({{-reach, 20}, {reach, -20}}, deep, 10, Metres(5)))).size();
  };
  CHECK(count(120, 1.4) == 1);
  CHECK(count(120, 0.8) == 0);
  CHECK(count(25, 3) == 0);  // 50 m, and what the round ends add
}

TEST_CASE("an ordinary basin has no channel along its axis") {
  CHECK(channels(lake_of(bowl(Metres(400), Metres(20), Metres(5), Metres(50)))).empty());
  // a long lake: V-shaped, parabolic, and as narrow as a river, where the shores are the banks
  const auto valley = [](double half, auto depth) {
    return channels(lake_of(filled(frame_about(Metres(400), Metres(5)), [&](XY at) {
      const double share = std::abs(at.y + 0.3 * at.x) / half;
      return share >= 1 || std::abs(at.x) > 350 ? static_cast<double>(kLand.value()) : depth(share);
    })));
  };
  for (const double half : {20.0, 40.0, 70.0, 150.0}) {
    INFO("half width " << half);
    CHECK(valley(half, [](double share) { return 8 * (1 - share); }).empty());
    CHECK(valley(half, [](double share) { return 8 * (1 - share * share); }).empty());
  }
  // an even slope, and a hump with the moat that a slope and a hump make
  CHECK(channels(lake_of(filled(frame_about(Metres(300), Metres(5)), [](XY at) { return 20 + 0.05 * at.x; }))).empty());
  CHECK(channels(lake_of(gaussian_hump(Metres(9), {{0, 0}, Metres(5), Metres(30)}, Metres(300), Metres(5)))).empty());
}

TEST_CASE("turning or mirroring the lake turns its channels") {
  const Meander meander{40, 250, 250};
  const Grid<Metres32> values = trench(meander.line(), 3, 10, Metres(5));
  const auto moved = [&](auto there) {
    Grid<Metres32> out(values.frame());
    for (std::size_t i = 0; i < values.size(); ++i) {
      out[values.frame().cell_at(there(values.frame().centre(values.cell_of(i))))] = values[i];
    }
    return channels(lake_of(out));
  };
  const auto before = channels(lake_of(values));
  const auto whole = [](const std::vector<Feature>& found) {
    double sum = 0;
    for (const Feature& each : found) sum += known(each).length.value();
    return sum;
  };
  const auto check = [&](auto there) {
    const auto after = moved(there);
    CHECK(after.size() == before.size());
    CHECK(whole(after) == Approx(whole(before)).margin(10));  // a step at either end
    const PreparedShape shape{Geometry{lines_of(after)}};
    for (const Line& line : lines_of(before)) {
      for (const XY at : line) CHECK(shape.distance_to(there(at)) < Metres(std::abs(at.x) < 245 ? 0.5 : 10));
    }
  };
  check([](XY at) { return XY{-at.y, at.x}; });
  check([](XY at) { return XY{-at.x, at.y}; });
}

TEST_CASE("noise of the survey neither hides a channel nor makes one") {
  const unsigned seed = GENERATE(1U, 2U, 3U);
  const bool correlated = GENERATE(false, true);
  INFO("seed " << seed << (correlated ? ", correlated over 25 m" : ", white"));
  const Meander meander{40, 250, 250};
  const auto found = channels(lake_of(noisy(trench(meander.line(), 3, 10, Metres(5)), 0.15, correlated, seed)));
  REQUIRE_FALSE(found.empty());
  double whole = 0;
  for (const Feature& each : found) {
    whole += known(each).length.value();
    CHECK(each.confidence >= 0.8);
    for (const XY at : std::get<Lines>(each.geometry).front()) CHECK(distance(at, meander.line()) < Metres(15));
  }
  CHECK(whole == Approx(meander.length()).margin(45));
  CHECK(channels(lake_of(noisy(bowl(Metres(400), Metres(20), Metres(5), Metres(50)), 0.15, correlated, seed))).empty());
  CHECK(channels(lake_of(noisy(disc(Metres(400), Metres(6), Metres(5), Metres(50)), 0.15, correlated, seed))).empty());
}
