// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "castplan/io/raster.hpp"
#include "support/lakes.hpp"

// Closed forms: where the shore is and where the data are cut off is known by construction.

using namespace castplan;
using namespace castplan::lakes;

namespace {

/// Cells without data beside water: how many became land, how many stayed unknown.
struct Edge {
  int shore = 0;
  int cut = 0;
};

template <class Where>
Edge edge(const Grid<Metres32>& depth, const Where& where) {
  Edge out;
  for (std::size_t i = 0; i < depth.size(); ++i) {
    const Cell at = depth.cell_of(i);
    if (depth[i].value() > 0 || !where(depth.frame().centre(at))) continue;
    bool touches = false;
    for (int r = at.row - 1; r <= at.row + 1; ++r) {
      for (int c = at.col - 1; c <= at.col + 1; ++c) {
        touches = touches || (depth.holds({r, c}) && depth[Cell{r, c}].value() > 0);
      }
    }
    if (touches) ++(std::isnan(depth[i].value()) ? out.cut : out.shore);
  }
  return out;
}

constexpr auto kEverywhere = [](XY) { return true; };

/// The lake with every land cell as no data.
Grid<Metres32> without_land(Grid<Metres32> depth) {
  for (Metres32& cell : depth.cells()) {
    if (!(cell.value() > 0)) cell = kUnknown;
  }
  return depth;
}

}  // namespace

TEST_CASE("no data round a bowl is shore, and so is all beyond it") {
  Grid<Metres32> depth = without_land(bowl(Metres(200), Metres(8), Metres(5), Metres(50)));
  tell_shore_from_cut(depth);
  const Edge found = edge(depth, kEverywhere);
  CHECK(found.shore > 200);
  CHECK(found.cut == 0);
  CHECK(std::none_of(depth.cells().begin(), depth.cells().end(), [](Metres32 c) { return std::isnan(c.value()); }));
}

TEST_CASE("a bowl cut by the edge of a map keeps the cut unknown and has its shore elsewhere") {
  // R = 200, 12 m deep, cut at x = 60: on the cut the depth is 12 (1 - (60^2 + y^2) / 200^2)
  Grid<Metres32> depth = without_land(bowl(Metres(200), Metres(12), Metres(5), Metres(50)));
  for (std::size_t i = 0; i < depth.size(); ++i) {
    if (depth.frame().centre(depth.cell_of(i)).x > 60) depth[i] = kUnknown;
  }
  tell_shore_from_cut(depth);
  // deeper than 3 m on the cut: |y| < 160
  const auto deep_cut = [](XY at) { return at.x > 60 && std::fabs(at.y) < 150; };
  CHECK(edge(depth, deep_cut).shore == 0);
  CHECK(edge(depth, deep_cut).cut >= 60);
  const auto west = [](XY at) { return at.x < 30; };
  CHECK(edge(depth, west).cut == 0);
  CHECK(edge(depth, west).shore > 100);
}

TEST_CASE("a strip of no data through a bowl is no shore") {
  Grid<Metres32> depth = without_land(bowl(Metres(200), Metres(12), Metres(5), Metres(50)));
  for (std::size_t i = 0; i < depth.size(); ++i) {
    if (std::fabs(depth.frame().centre(depth.cell_of(i)).y) < 15) depth[i] = kUnknown;
  }
  tell_shore_from_cut(depth);
  // deeper than 3 m beside the strip: |x| < 172
  const auto strip = [](XY at) { return std::fabs(at.y) < 15 && std::fabs(at.x) < 160; };
  CHECK(edge(depth, strip).shore == 0);
  CHECK(edge(depth, strip).cut >= 120);
  const auto shores = [](XY at) { return std::fabs(at.y) > 60; };
  CHECK(edge(depth, shores).cut == 0);
}

TEST_CASE("steep walls are shore") {
  SECTION("3 m in the first cell of a lake of 20 m") {
    const Metres radius(200);
    Grid<Metres32> depth = filled(frame_about(Metres(250), Metres(5)), [&](XY at) {
      const double inwards = radius.value() - std::hypot(at.x, at.y);
      if (inwards < 0) return static_cast<double>(kUnknown.value());
      return std::min(20.0, 3.0 + 1.2 * inwards);
    });
    tell_shore_from_cut(depth);
    CHECK(edge(depth, kEverywhere).cut == 0);
  }
  SECTION("a quarry: 10 m up to its round wall") {
    Grid<Metres32> depth = without_land(disc(Metres(200), Metres(10), Metres(5), Metres(50)));
    tell_shore_from_cut(depth);
    CHECK(edge(depth, kEverywhere).cut == 0);
    CHECK(edge(depth, kEverywhere).shore > 200);
  }
}

TEST_CASE("a bog of 1 m up to its edge is shore") {
  Grid<Metres32> depth = without_land(disc(Metres(200), Metres(1), Metres(5), Metres(50)));
  tell_shore_from_cut(depth);
  CHECK(edge(depth, kEverywhere).cut == 0);
}

TEST_CASE("where a warped raster ends its lake is cut, however shallow") {
  // a bog of 1 m, round, seen through a raster that ends at x = 60
  Grid<Metres32> depth = without_land(disc(Metres(200), Metres(1), Metres(5), Metres(50)));
  for (std::size_t i = 0; i < depth.size(); ++i) {
    if (depth.frame().centre(depth.cell_of(i)).x > 60) depth[i] = kUnknown;
  }
  const Polygons extent = {{{{-250, -250}, {60, -250}, {60, 250}, {-250, 250}, {-250, -250}}, {}}};
  tell_shore_from_cut(depth, Metres(0), extent);
  const auto beyond = [](XY at) { return at.x > 60; };
  const auto inside = [](XY at) { return at.x < 60; };
  CHECK(edge(depth, beyond).shore == 0);
  CHECK(edge(depth, beyond).cut >= 70);  // the chord is 2 sqrt(200^2 - 60^2) = 381.6 m long, 76 cells of 5 m
  CHECK(edge(depth, inside).cut == 0);
  CHECK(edge(depth, inside).shore > 150);
}

TEST_CASE("a square window on deep water has no shore at all") {
  Grid<Metres32> depth = filled(frame_about(Metres(250), Metres(5)), [](XY at) {
    return std::max(std::fabs(at.x), std::fabs(at.y)) < 200 ? 10.0 : static_cast<double>(kUnknown.value());
  });
  tell_shore_from_cut(depth);
  CHECK(edge(depth, kEverywhere).shore == 0);
}

TEST_CASE("shallow is judged at the surveyed level") {
  // a shelf of 1 m when surveyed, under a lake that now stands 2 m higher and is cut by nothing
  const auto shelf = [] {
    return filled(frame_about(Metres(250), Metres(5)), [](XY at) {
      const double r = std::hypot(at.x, at.y);
      return r > 200 ? static_cast<double>(kUnknown.value()) : (r > 120 ? 3.0 : 8.0);
    });
  };
  Grid<Metres32> depth = shelf();
  tell_shore_from_cut(depth, Metres(2));
  CHECK(edge(depth, kEverywhere).cut == 0);
}

TEST_CASE("a shoreline clips: land outside, unknown inside where there is no depth") {
  const Frame frame = frame_about(Metres(10), Metres(1));
  Grid<Metres32> depth(frame, Metres32(4));
  depth[frame.cell_at({0.5, 3.5})] = kUnknown;
  // a square of 12 m with a hole of 4 m; corners off cell centres
  const Polygons shore = {
      {{{-6, -6}, {6, -6}, {6, 6}, {-6, 6}, {-6, -6}}, {{{-2, -2}, {-2, 2}, {2, 2}, {2, -2}, {-2, -2}}}}};
  const Polygon dry = {{{7, 7}, {9, 7}, {9, 9}, {7, 9}, {7, 7}}, {}};
  for (const XY at : {XY{7.5, 7.5}, XY{7.5, 8.5}, XY{8.5, 7.5}, XY{8.5, 8.5}}) depth[frame.cell_at(at)] = kUnknown;
  const Polygons wet = clip_to_shoreline(depth, {dry, shore[0]});
  REQUIRE(wet.size() == 1);
  CHECK(wet[0].outer == shore[0].outer);
  int water = 0;
  for (std::size_t i = 0; i < depth.size(); ++i) {
    const XY at = frame.centre(depth.cell_of(i));
    const double ring = std::max(std::fabs(at.x), std::fabs(at.y));
    const bool inside = ring < 6 && ring > 2;
    INFO(at.x << " " << at.y);
    if (!inside && !contains(dry.outer, at)) CHECK(depth[i] == kLand);
    if (inside && depth[i].value() > 0) ++water;
  }
  CHECK(water == 144 - 16 - 1);
  CHECK(std::isnan(depth[frame.cell_at({0.5, 3.5})].value()));
}
