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

std::optional<std::string> lake_data() { return folder("lake-erie-east-basin", {"depth_m.tif"}); }

constexpr double kCell = 30;  // metres, as the raster states it

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
  const auto data = lake_data();
  if (!data) return;
  const Lake lake = load(*data);
  // 286,887 cells of 900 m2; all figures counted in the raster with other software (data folder's README)
  CHECK(std::abs(percent_off("Lake Erie, east: area", 286887 * 900.0, lake.area.value(), "m2")) <= 0.5);
  CHECK(std::abs(percent_off("Lake Erie, east: maximum depth", 18.80, lake.max_depth.value(), "m")) <= 0.5);
  CHECK(std::abs(percent_off("Lake Erie, east: mean depth", 12.12, lake.mean_depth.value(), "m")) <= 0.5);
  CHECK(std::abs(percent_off("Lake Erie, east: volume", 3.130e9, lake.volume.value(), "m3")) <= 0.5);
}

TEST_CASE("Lake Erie, east: an equal-area grid is drawn anew, since it changes shapes") {
  const auto data = lake_data();
  if (!data) return;
  const DepthRaster raster = read_depth_raster(raster_file(*data + "/depth_m.tif", DepthUnit::metre).raster);
  CHECK(raster.resampled);
  CHECK_THAT(raster.why_resampled, Catch::Contains("Albers") && Catch::Contains("changes shapes"));
  // an equal-area projection: 592 by 537 cells of 900 m2 on the ground (Snyder 1987, USGS Prof. Paper 1395, ch. 14)
  CHECK(std::abs(percent_off("Lake Erie, east: area of the whole raster", 592 * 537 * 900.0,
                             area(raster.extent).value(), "m2")) <= 0.01);
}

TEST_CASE("Lake Erie, east: where the raster ends the lake is cut, elsewhere its edge is shore") {
  const auto data = lake_data();
  if (!data) return;
  const Lake lake = load(*data);
  // Water within a cell and a half of the raster's outer edge, whose corners the file states, is cut. Other water of
  // this raster ends at a shore (seen in a picture of it), but for islets of a few cells without data in deep water.
  const Projection albers = Projection::from_text("ESRI:102039");
  const Box raster{{1367865 + 1.5 * kCell, 2316705 + 1.5 * kCell}, {1385625 - 1.5 * kCell, 2332815 - 1.5 * kCell}};
  int at_edge = 0, cut_there = 0, elsewhere = 0, shore_there = 0;
  for (std::size_t i = 0; i < lake.cover.size(); ++i) {
    if (lake.cover[i] != Cover::water) continue;
    const Cell at = lake.cover.cell_of(i);
    bool unknown = false, land = false;
    for (int r = at.row - 1; r <= at.row + 1; ++r) {
      for (int c = at.col - 1; c <= at.col + 1; ++c) {
        const Cover beside = lake.cover.holds({r, c}) ? lake.cover[Cell{r, c}] : Cover::unknown;
        unknown = unknown || beside == Cover::unknown;
        land = land || beside == Cover::land;
      }
    }
    if (!unknown && !land) continue;
    const XY place = albers.from_lonlat(lake.projection.to_lonlat(lake.cover.frame().centre(at)));
    const bool inner =
        place.x > raster.low.x && place.y > raster.low.y && place.x < raster.high.x && place.y < raster.high.y;
    ++(inner ? elsewhere : at_edge);
    if (!inner && unknown) ++cut_there;
    if (inner && !unknown) ++shore_there;
  }
  note("Lake Erie, east: {} of {} cells at the raster's edge are cut, {} of {} others have a shore", cut_there, at_edge,
       shore_there, elsewhere);
  CHECK(at_edge > 1000);
  CHECK(elsewhere > 1000);
  CHECK(cut_there >= 0.99 * at_edge);
  CHECK(shore_there >= 0.90 * elsewhere);  // the rest: breakwaters with deep water beside them, taken as unknown
}

TEST_CASE("Lake Erie, east: the edge of the data is no shore") {
  const auto data = lake_data();
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
  const auto data = lake_data();
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
