// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "castplan/geo/planar.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

Feature made(Kind kind, std::string id, Geometry geometry) {
  Feature feature;
  feature.kind = kind;
  feature.id = std::move(id);
  feature.geometry = std::move(geometry);
  feature.details = Structure{};
  return feature;
}

Polygons square(XY low, double side) {
  return {{{low, low + XY{side, 0}, low + XY{side, side}, low + XY{0, side}, low}, {}}};
}

using Ids = std::vector<std::string>;

}  // namespace

TEST_CASE("neighbours are of another kind and within reach") {
  std::vector<Feature> all{made(Kind::drop_off, "d", Lines{{{0, 0}, {200, 0}}}),
                           made(Kind::wood, "near", Points{{100, 24.9}}),
                           made(Kind::wood, "far", Points{{100, 25.1}}),
                           made(Kind::wood, "end", Points{{-15, -20}}),               // 25 m from (0, 0), by Pythagoras
                           made(Kind::weed_line, "w", Lines{{{50, -80}, {50, 80}}}),  // crosses far from any vertex
                           made(Kind::drop_off, "other", Lines{{{0, 5}, {200, 5}}})};
  relate(all, Metres(25));
  CHECK(all[0].neighbours == Ids{"end", "near", "w"});
  CHECK(all[1].neighbours == Ids{"d", "other"});
  CHECK(all[2].neighbours == Ids{"other"});
  CHECK(all[3].neighbours == Ids{"d"});
  CHECK(all[4].neighbours == Ids{"d", "other"});
}

TEST_CASE("what lies inside a polygon is its neighbour, in a hole of it only near the rim") {
  std::vector<Feature> all{made(Kind::flat, "f", square({0, 0}, 400)), made(Kind::wood, "inside", Points{{200, 60}}),
                           made(Kind::rock, "hole", Points{{200, 200}}), made(Kind::rock, "rim", Points{{200, 270}}),
                           made(Kind::hump, "hump", square({40, 40}, 10))};
  Polygon& flat = std::get<Polygons>(all[0].geometry)[0];
  flat.holes.push_back({{120, 120}, {120, 280}, {280, 280}, {280, 120}, {120, 120}});
  relate(all, Metres(25));
  CHECK(all[0].neighbours == Ids{"hump", "inside", "rim"});
  CHECK(all[2].neighbours.empty());
  CHECK(all[4].neighbours == Ids{"f"});
}

TEST_CASE("the same neighbours as by asking every pair, with distances from GEOS") {
  const unsigned seed = GENERATE(1U, 2U, 3U);
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random()) / 4294967295.0;
  };
  std::vector<Feature> all;
  for (int i = 0; i < 120; ++i) {
    const XY at{between(-600, 600), between(-600, 600)};
    const Kind kind = std::vector{Kind::wood, Kind::rock, Kind::drop_off, Kind::flat}[static_cast<std::size_t>(i % 4)];
    const std::string id = std::to_string(1000 + i);
    if (kind == Kind::flat) {
      all.push_back(made(kind, id, square(at, between(5, 200))));
    } else if (kind == Kind::drop_off) {
      Line line{at};
      for (int k = 0; k < 6; ++k) line.push_back(line.back() + XY{between(-90, 90), between(-90, 90)});
      all.push_back(made(kind, id, Lines{line}));
    } else {
      all.push_back(made(kind, id, Points{at}));
    }
  }
  relate(all, Metres(25));
  for (const Feature& feature : all) {
    INFO(feature.id);
    if (!std::holds_alternative<Points>(feature.geometry)) continue;
    Ids expected;
    for (const Feature& other : all) {
      if (other.kind == feature.kind) continue;
      const PreparedShape shape(other.geometry);
      if (shape.distance_to(std::get<Points>(feature.geometry)[0]) <= Metres(25)) expected.push_back(other.id);
    }
    CHECK(feature.neighbours == expected);
  }
  // and between lines and squares: a strip of 25 m around one touches the other (chords: 0.13 % too narrow)
  for (const Feature& line : all) {
    if (line.kind != Kind::drop_off) continue;
    for (const Feature& other : all) {
      if (other.kind != Kind::flat) continue;
      const bool listed = std::find(line.neighbours.begin(), line.neighbours.end(), other.id) != line.neighbours.end();
      const auto strip = [&](double reach) {
        return PreparedShape(Geometry{buffered(other.geometry, Metres(reach))})
            .touches(std::get<Lines>(line.geometry).front());
      };
      INFO(line.id << " " << other.id);
      if (strip(24.9)) CHECK(listed);
      if (!strip(25.1)) CHECK_FALSE(listed);
    }
  }
}

TEST_CASE("where edges meet, features know of each other") {
  // mapped wood on the break of a ring-shaped drop-off
  const MappedStructure wood{"wood", "", "", "wood.shp", Points{{0, 150}}};
  const auto all = detect(lake_of(ring_break(Metres(150), Metres(3), Metres(10), Metres(30), Metres(400), Metres(5))),
                          {}, std::span(&wood, 1));
  const auto found = of_kind(all, Kind::wood);
  REQUIRE(found.size() == 1);
  CHECK(std::any_of(found[0].neighbours.begin(), found[0].neighbours.end(),
                    [](const std::string& id) { return id.rfind("drop-off-", 0) == 0; }));
  CHECK(std::is_sorted(found[0].neighbours.begin(), found[0].neighbours.end()));
}
