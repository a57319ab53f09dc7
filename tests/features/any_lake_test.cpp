// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0

// What holds on any lake, held on rough ones: bumps of many sizes, an island, a cut in the survey, noise.

#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <set>

#include "castplan/geo/planar.hpp"
#include "castplan/grid/sweep.hpp"
#include "support/detecting.hpp"

using namespace castplan;
using namespace castplan::lakes;

namespace {

constexpr WeedKnowledge kWeeds{Metres(4), WeedSource::predicted};

Grid<Metres32> rough_values(unsigned seed, Metres cell, double noise) {
  std::mt19937 random(seed);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random()) / 4294967295.0;
  };
  std::vector<Gauss> bumps;
  for (int i = 0; i < 40; ++i) {
    const double x = between(-300, 300);
    const double y = between(-300, 300);
    const double rise = between(-9, 12);
    bumps.push_back({{x, y}, Metres(rise), Metres(between(10, 50))});
  }
  return filled(frame_about(Metres(400), cell), [&](XY at) {
    const double r2 = dot(at, at);
    if (at.x > 250 && at.y > 150) return std::nan("");
    double depth = 12 * (1 - r2 / (340.0 * 340.0)) + noise * between(-1, 1);
    for (const Gauss& bump : bumps) depth += gauss_at(bump, at) * std::max(0.0, 1 - r2 / (340.0 * 340.0));
    return depth > 0 ? depth : static_cast<double>(kLand.value());
  });
}

Lake rough_lake(unsigned seed, double noise = 0.3) { return lake_of(rough_values(seed, Metres(5), noise)); }

bool oriented(const Polygons& polygons) {
  for (const Polygon& polygon : polygons) {
    if (signed_area(polygon.outer) <= SquareMetres(0)) return false;
    for (const Ring& hole : polygon.holes) {
      if (signed_area(hole) >= SquareMetres(0)) return false;
    }
  }
  return true;
}

/// Moves values and places by a symmetry of the square about (0, 0), which maps cell centres to cell centres.
struct Turn {
  const char* name;
  XY (*there)(XY);
  XY (*back)(XY);
};

const std::vector<Turn> kTurns{
    {"a quarter turn",
     [](XY p) {
       return XY{-p.y, p.x};
     },
     [](XY p) {
       return XY{p.y, -p.x};
     }},
    {"a half turn",
     [](XY p) {
       return XY{-p.x, -p.y};
     },
     [](XY p) {
       return XY{-p.x, -p.y};
     }},
    {"a mirror",
     [](XY p) {
       return XY{-p.x, p.y};
     },
     [](XY p) {
       return XY{-p.x, p.y};
     }},
};

Grid<Metres32> turned(const Grid<Metres32>& values, const Turn& turn) {
  Grid<Metres32> out(values.frame());
  for (std::size_t i = 0; i < values.size(); ++i) {
    const XY to = turn.there(values.frame().centre(values.cell_of(i)));
    out[values.frame().cell_at(to)] = values[i];
  }
  return out;
}

Lines lines_of(const std::vector<Feature>& features) {
  Lines all;
  for (const Feature& feature : features) {
    if (const auto* lines = std::get_if<Lines>(&feature.geometry)) all.insert(all.end(), lines->begin(), lines->end());
  }
  return all;
}

double total_length(const Lines& lines) {
  double sum = 0;
  for (const Line& line : lines) sum += length(line).value();
  return sum;
}

// Share of the lines, by length, that lies within a distance of the other lines.
double share_near(const Lines& lines, const Lines& others, const Turn& turn, Metres near) {
  const PreparedShape shape{Geometry{others}};
  int count = 0, close = 0;
  for (const Line& line : lines) {
    for (const XY at : resampled(line, Metres(5))) {
      ++count;
      if (shape.distance_to(turn.there(at)) <= near) ++close;
    }
  }
  return count > 0 ? static_cast<double>(close) / count : 1;
}

}  // namespace

TEST_CASE("shapes are valid, rings turn as they should, and nothing stands in the unknown") {
  const unsigned seed = GENERATE(range(1U, 9U));
  INFO("seed " << seed);
  const Lake lake = rough_lake(seed);
  const auto features = detect(lake, kWeeds);
  CHECK(features.size() > 12);
  for (const Feature& feature : features) {
    INFO(feature.id);
    CHECK((feature.confidence >= 0 && feature.confidence <= 1));
    CHECK_FALSE(vertices(feature.geometry).empty());
    if (const auto* polygons = std::get_if<Polygons>(&feature.geometry)) {
      CHECK(invalidity(*polygons).empty());
      CHECK(oriented(*polygons));
    }
    const bool is_line = std::holds_alternative<Lines>(feature.geometry);
    for (const XY at : vertices(feature.geometry)) {
      // an outline may run along the outer side of the last known cell, no further
      CHECK((at.x < 250 + 2.51 || at.y < 150 + 2.51));
      if (is_line) CHECK(cover_at(lake, at) != Cover::unknown);
    }
    CHECK(cover_at(lake, feature.anchor) == Cover::water);
  }
}

TEST_CASE("ids are unique, and made of kind, latitude and longitude") {
  const unsigned seed = GENERATE(11U, 12U);
  INFO("seed " << seed);
  const std::string form(
      "(pool|drop-off|weed-line|hump|saddle|flat|channel|point|inside-turn|narrows|bay|hazard)-[0-9]+\\.[0-9]{5}[NS]-["
      "0-9]+"
      "\\.[0-9]{5}[EW](-[0-9]+)?");
  std::set<std::string> seen;
  for (const Feature& feature : detect(rough_lake(seed), kWeeds)) {
    INFO(feature.id);
    CHECK_THAT(feature.id, Catch::Matches(form));
    CHECK(seen.insert(feature.id).second);
  }
}

TEST_CASE("a line's anchor is its middle, and its pieces are short enough for one pass") {
  for (const Feature& feature : detect(rough_lake(21), kWeeds)) {
    const auto* lines = std::get_if<Lines>(&feature.geometry);
    if (lines == nullptr) continue;
    INFO(feature.id);
    REQUIRE(lines->size() == 1);
    const Line& line = lines->front();
    CHECK(length(line) <= Metres(300.5));
    // the northern end comes first; a crest begins at the shore
    const bool is_crest = feature.kind == Kind::point || feature.kind == Kind::inside_turn;
    CHECK((is_crest || line.front().y >= line.back().y));
    // the printed line is simplified to a tenth of a cell, which moves its middle by little
    CHECK(distance(feature.anchor, point_along(line, 0.5)) < Metres(2));
    CHECK(distance(feature.anchor, line) < Metres(is_crest ? 2.01 : 0.51));  // simplified to 2 m
  }
}

TEST_CASE("the same bytes at one and at two threads") {
  const unsigned seed = GENERATE(31U, 32U);
  INFO("seed " << seed);
  const Lake lake = rough_lake(seed);
  set_threads(1);
  const auto one = detect(lake, kWeeds);
  set_threads(2);
  const auto two = detect(lake, kWeeds);
  set_threads(0);
  REQUIRE(one.size() == two.size());
  for (std::size_t i = 0; i < one.size(); ++i) {
    CHECK(one[i].id == two[i].id);
    CHECK(one[i].name == two[i].name);
    CHECK(one[i].confidence == two[i].confidence);
    CHECK(one[i].anchor == two[i].anchor);
    CHECK(vertices(one[i].geometry) == vertices(two[i].geometry));
    const double depths[] = {typical_depth_m(one[i]), typical_depth_m(two[i])};
    CHECK(depths[0] == depths[1]);
  }
}

TEST_CASE("turning or mirroring the lake turns its features and changes nothing else") {
  const unsigned seed = GENERATE(41U, 42U, 43U);
  const Turn turn = kTurns[GENERATE(0U, 1U, 2U)];
  INFO("seed " << seed << ", " << turn.name);
  const Grid<Metres32> values = rough_values(seed, Metres(5), 0.0);
  const auto before = detect(lake_of(values), kWeeds);
  const auto after = detect(lake_of(turned(values, turn)), kWeeds);
  for (const Kind kind :
       {Kind::pool, Kind::hump, Kind::flat, Kind::hazard, Kind::point, Kind::inside_turn, Kind::narrows, Kind::bay}) {
    const auto here = of_kind(before, kind);
    auto there = of_kind(after, kind);
    REQUIRE(here.size() == there.size());
    for (const Feature& feature : here) {
      INFO(feature.id);
      const auto twin = std::find_if(there.begin(), there.end(), [&](const Feature& each) {
        return distance(each.anchor, turn.there(feature.anchor)) < Metres(0.5);
      });
      REQUIRE(twin != there.end());
      CHECK(typical_depth_m(*twin) == Approx(typical_depth_m(feature)).margin(0.01));
      CHECK(twin->confidence == Approx(feature.confidence).margin(1e-6));
      if (const auto* shape = std::get_if<Polygons>(&feature.geometry)) {
        CHECK(area(std::get<Polygons>(twin->geometry)).value() == Approx(area(*shape).value()).epsilon(0.01).margin(5));
      }
      if (const auto* bar = std::get_if<Bar>(&feature.details)) {
        CHECK(std::get<Bar>(twin->details).relief.value() == Approx(bar->relief.value()).margin(0.01));
        const XY out = offset({0, 0}, bar->faces, Metres(1));
        const Degrees expected = grid_bearing({0, 0}, turn.there(out));
        CHECK(std::abs(std::remainder(std::get<Bar>(twin->details).faces.value() - expected.value(), 360)) < 0.1);
      }
      if (const auto* narrows = std::get_if<Narrows>(&feature.details)) {
        CHECK(std::get<Narrows>(twin->details).width.value() == Approx(narrows->width.value()).margin(0.01));
      }
      if (const auto* bay = std::get_if<Bay>(&feature.details)) {
        CHECK(std::get<Bay>(twin->details).width.value() == Approx(bay->width.value()).margin(0.5));
        CHECK(std::get<Bay>(twin->details).mean_depth.value() == Approx(bay->mean_depth.value()).margin(0.01));
      }
      if (const auto* pool = std::get_if<Pool>(&feature.details)) {
        const auto& other = std::get<Pool>(twin->details);
        CHECK(other.relief.value() == Approx(pool->relief.value()).margin(0.01));
        CHECK(other.area.value() == Approx(pool->area.value()).epsilon(1e-4));
        CHECK(other.volume.value() == Approx(pool->volume.value()).epsilon(1e-4));
        CHECK(other.sill_depth.has_value() == pool->sill_depth.has_value());
      }
      if (const auto* hump = std::get_if<Hump>(&feature.details)) {
        CHECK(std::get<Hump>(twin->details).base_depth.value() == Approx(hump->base_depth.value()).margin(0.01));
      }
    }
  }
  const auto saddles = of_kind(before, Kind::saddle);
  const auto turned_saddles = of_kind(after, Kind::saddle);
  REQUIRE(saddles.size() == turned_saddles.size());
  for (const Feature& feature : saddles) {
    INFO(feature.id);
    const auto twin = std::find_if(turned_saddles.begin(), turned_saddles.end(), [&](const Feature& each) {
      return distance(each.anchor, turn.there(feature.anchor)) < Metres(0.5);
    });
    REQUIRE(twin != turned_saddles.end());
    // 0.01 mm of relief is 1e-5 of a chance here: sums over a turned window round differently
    CHECK(twin->confidence == Approx(feature.confidence).margin(1e-4));
    CHECK(typical_depth_m(*twin) == Approx(typical_depth_m(feature)).margin(0.005));
    CHECK(std::get<Saddle>(twin->details).relief.value() ==
          Approx(std::get<Saddle>(feature.details).relief.value()).margin(0.005));
  }
  // Lines begin at their northern end, and a break is looked at every 5 m from there: after a turn the pieces are cut
  // elsewhere, and each may end a step or two earlier or later, but they lie on the same lines.
  for (const Kind kind : {Kind::drop_off, Kind::weed_line}) {
    const Lines here = lines_of(of_kind(before, kind));
    const Lines there = lines_of(of_kind(after, kind));
    CHECK(total_length(here) > 300);
    CHECK(total_length(there) == Approx(total_length(here)).epsilon(0.06));
    const Turn back{"back", turn.back, turn.there};
    CHECK(share_near(here, there, turn, Metres(0.5)) > 0.94);
    CHECK(share_near(there, here, back, Metres(0.5)) > 0.94);
    CHECK(share_near(here, there, turn, Metres(15)) == 1);
    CHECK(share_near(there, here, back, Metres(15)) == 1);
  }
}
