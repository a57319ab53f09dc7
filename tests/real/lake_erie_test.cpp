// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
//
// Eastern Lake Erie, cut off on most sides: example data of the R package SAVM, Fisheries and Oceans Canada (GPL-3).
// See README.md.
#include <algorithm>
#include <catch2/catch.hpp>

#include "real/real_lakes.hpp"

using namespace castplan;
using namespace castplan::real;

namespace {

Lake load(const std::string& data) { return load_lake(raster_file(data + "/depth_m.tif", DepthUnit::metre)).lake; }

// A vertex lies on or between cells: all that touch it count.
bool touches_unknown(const Lake& lake, XY vertex) {
  const double reach = 0.51 * lake.depth.frame().cell.value();
  for (const double dx : {-reach, reach}) {
    for (const double dy : {-reach, reach}) {
      if (cover_at(lake, {vertex.x + dx, vertex.y + dy}) == Cover::unknown) return true;
    }
  }
  return false;
}

// Walks the cast in steps of a metre.
bool over_water_alone(const Lake& lake, const Spot& spot) {
  const int steps = static_cast<int>(std::ceil(spot.cast.value()));
  for (int step = 0; step <= steps; ++step) {
    const XY place = spot.boat + (spot.target - spot.boat) * (static_cast<double>(step) / steps);
    if (cover_at(lake, place) != Cover::water) return false;
  }
  return true;
}

}  // namespace

TEST_CASE("Lake Erie, east: size and depths of a lake whose no-data is an undeclared NaN") {
  const auto data = folder("lake-erie-east-basin");
  if (!data) return;
  const Lake lake = load(*data);
  // 286,887 cells of 900 m2; all figures counted in the raster with other software (data folder's README)
  CHECK(std::abs(percent_off("Lake Erie, east: area", 286887 * 900.0, lake.area.value(), "m2")) <= 0.5);
  CHECK(std::abs(percent_off("Lake Erie, east: maximum depth", 18.80, lake.max_depth.value(), "m")) <= 0.5);
  CHECK(std::abs(percent_off("Lake Erie, east: mean depth", 12.12, lake.mean_depth.value(), "m")) <= 0.5);
  CHECK(std::abs(percent_off("Lake Erie, east: volume", 3.130e9, lake.volume.value(), "m3")) <= 0.5);
}

TEST_CASE("Lake Erie, east: the edge of the data is no shore") {
  const auto data = folder("lake-erie-east-basin");
  if (!data) return;
  const Lake lake = load(*data);
  note("Lake Erie, east: {:.3f} of the water's edge is cut", lake.cut_share);
  CHECK(lake.cut_share > 0.3);  // the raster has no shoreline on most sides, but does have the north shore
  CHECK(lake.cut_share < 0.7);

  const auto features = features_of(lake);
  int pools = 0, with_sill = 0, beside_unknown = 0;
  for (const Feature& feature : of_kind(features, Kind::pool)) {
    ++pools;
    if (!std::get<Pool>(feature.details).sill_depth) continue;
    ++with_sill;
    for (const XY vertex : vertices(feature.geometry)) {
      if (touches_unknown(lake, vertex)) {
        ++beside_unknown;
        break;
      }
    }
  }
  note("Lake Erie, east: {} pools, {} with a sill, {} of those beside unknown cells", pools, with_sill, beside_unknown);
  CHECK(with_sill > 0);
  // the test can tell: the lake's own outline does run along unknown cells
  const Points outline = vertices(lake.outline);
  CHECK(std::any_of(outline.begin(), outline.end(), [&](XY vertex) { return touches_unknown(lake, vertex); }));
  CHECK(beside_unknown == 0);
}

TEST_CASE("Lake Erie, east: no cast crosses what is not known") {
  const auto data = folder("lake-erie-east-basin");
  if (!data) return;
  const Lake lake = load(*data);
  Spot off_the_map;  // the test can tell: one that leaves the survey
  off_the_map.boat = lake.bodies[0].deepest;
  off_the_map.target = lake.depth.frame().corner;
  off_the_map.cast = distance(off_the_map.boat, off_the_map.target);
  CHECK_FALSE(over_water_alone(lake, off_the_map));

  int spots = 0;
  for (const PhaseSpots& ranked : spots_of(lake, features_of(lake), 50)) {
    for (const Spot& spot : ranked.spots) {
      INFO(spot.phase << " " << spot.id);
      CHECK(over_water_alone(lake, spot));
      ++spots;
    }
  }
  note("Lake Erie, east: {} spots in all phases", spots);
  CHECK(spots > 0);
}
