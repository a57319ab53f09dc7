// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <numbers>

#include "castplan/geo/planar.hpp"
#include "castplan/terrain/fetch.hpp"
#include "support/detecting.hpp"

// Shapes with a closed form. What likely ground is like - sheltered, of moderate slope, in small flats, hollow - is
// from Nohner & Diana (2015), N. Am. J. Fish. Manage. 35, 141-157; the limits in metres are a design choice.

using namespace castplan;
using namespace castplan::lakes;

namespace {

Habitat usual() {
  Habitat habitat{};
  habitat.depth = {Metres(0.3), Metres(2)};
  habitat.grade_pct = {0.5, 12};
  habitat.area = {SquareMetres(500), SquareMetres(60000)};
  habitat.fetch_most = Metres(800);
  habitat.concave = true;
  habitat.plants = true;
  return habitat;
}

std::vector<Feature> ground_of(const Lake& lake, const Habitat& habitat, std::optional<WeedKnowledge> weeds = {}) {
  Ground ground{lake, {}, {}, weeds, {}, {}, {}};
  ground.wanted = {{"test-fish", "Test fish", habitat, "It looks right.", "rising water of 5 to 17 C"}};
  return of_kind(find_features(std::move(ground), {}), Kind::spawning_ground);
}

double area_of(const std::vector<Feature>& features) {
  double sum = 0;
  for (const Feature& each : features) sum += area(std::get<Polygons>(each.geometry)).value();
  return sum;
}

Lake bowl_of(double radius, double depth) {
  return lake_of(bowl(Metres(radius), Metres(depth), Metres(5), Metres(20)));
}

}  // namespace

TEST_CASE("nothing is looked for unless somebody asks") {
  const Lake lake = bowl_of(300, 10);
  CHECK(of_kind(detect(lake), Kind::spawning_ground).empty());
}

TEST_CASE("ground of a small bowl is the ring of its depths") {
  const Lake lake = bowl_of(300, 10);
  const auto found = ground_of(lake, usual());
  REQUIRE_FALSE(found.empty());
  // paraboloid: the line of depth d at R sqrt(1 - d / depth); blocks of 15 m blur the ring by part of one on both sides
  const double outer = 300 * std::sqrt(1 - 0.3 / 10), inner = 300 * std::sqrt(1 - 2.0 / 10);
  const double ring = std::numbers::pi * (outer * outer - inner * inner);
  CHECK(area_of(found) == Approx(ring).epsilon(0.3));
  const auto [least, most] = radii(found);
  CHECK(least > inner - 20);
  CHECK(most < outer + 20);
  for (const Feature& piece : found) {
    const auto& details = std::get<LikelyGround>(piece.details);
    CHECK(details.species == "test-fish");
    CHECK(details.depth > Metres(0.3));
    CHECK(details.depth < Metres(2));
    CHECK(contains(std::get<Polygons>(piece.geometry), piece.anchor));
    // from the shore of a disc a radial at an angle a to the middle is 2 R cos a long
    double above = 0, below = 0;
    for (int i = -7; i <= 7; ++i) {
      const double c = std::cos(i * 6 * std::numbers::pi / 180);
      above += 2 * 300 * c * c;
      below += c;
    }
    REQUIRE(details.fetch);
    CHECK(details.fetch->value() == Approx(above / below).epsilon(0.1));
    CHECK(piece.confidence < 0.6);
  }
}

TEST_CASE("open shores, steep shores and unknown shores are no ground") {
  CHECK(ground_of(bowl_of(900, 30), usual()).empty());  // the same slope, but 1.6 km of water before it
  CHECK(ground_of(bowl_of(300, 40), usual()).empty());  // 27 % at the shore
  Habitat open = usual();
  open.fetch_most = Metres(5000);
  CHECK_FALSE(ground_of(bowl_of(900, 30), open).empty());  // so that the first can fail
  // a window on a larger water: the map ends before any shore but one
  Grid<Metres32> values = bowl(Metres(300), Metres(10), Metres(5), Metres(20));
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values.frame().centre(values.cell_of(i)).x < 200) values[i] = kUnknown;
  }
  CHECK(ground_of(lake_of(std::move(values)), usual()).empty());
}

TEST_CASE("a shallow flat that is too wide is left out, and a smaller one is not") {
  const Lake lake = bowl_of(300, 2);  // all of it is shallow; 0.5 % and more from 112 m out
  Habitat wide = usual();
  wide.area.most = SquareMetres(300.0 * 300.0);
  Habitat narrow = usual();
  narrow.area.most = SquareMetres(100.0 * 100.0);
  CHECK(area_of(ground_of(lake, wide)) > 100000);
  CHECK(area_of(ground_of(lake, narrow)) < 0.1 * area_of(ground_of(lake, wide)));
}

TEST_CASE("noses of the shore are left out where the bed is to be hollow, and plants make it surer") {
  const auto lobes = filled(frame_about(Metres(400), Metres(5)), [](XY at) {
    const double shore = 280 + 60 * std::sin(5 * std::atan2(at.y, at.x));
    const double in = shore - std::hypot(at.x, at.y);
    return in > 0 ? 0.06 * in : static_cast<double>(kLand.value());
  });
  const Lake lake = lake_of(lobes);
  Habitat any = usual();
  any.concave = false;
  const double all = area_of(ground_of(lake, any)), hollow = area_of(ground_of(lake, usual()));
  CHECK(hollow > 0);
  CHECK(hollow < 0.95 * all);
  double best = 0, best_with_plants = 0;
  for (const Feature& each : ground_of(lake, usual())) best = std::max(best, each.confidence);
  for (const Feature& each : ground_of(lake, usual(), WeedKnowledge{Metres(3), WeedSource::observed})) {
    CHECK(std::get<LikelyGround>(each.details).plants);
    best_with_plants = std::max(best_with_plants, each.confidence);
  }
  CHECK(best_with_plants > best);
  CHECK(best_with_plants < 0.6);
}

TEST_CASE("more shelter, more depth or a wider range of slopes never leaves less ground") {
  const Lake lake = bowl_of(350, 12);
  const double usual_area = area_of(ground_of(lake, usual()));
  Habitat more = usual();
  more.depth.most = Metres(3);
  CHECK(area_of(ground_of(lake, more)) >= usual_area);
  more = usual();
  more.fetch_most = Metres(2000);
  CHECK(area_of(ground_of(lake, more)) >= usual_area);
  more = usual();
  more.grade_pct.most = 30;
  CHECK(area_of(ground_of(lake, more)) >= usual_area);
}
