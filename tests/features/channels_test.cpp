// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/geo/planar.hpp"
#include "support/detecting.hpp"

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
