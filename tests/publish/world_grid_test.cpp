// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/world_grid.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "castplan/geo/geodesic.hpp"

using namespace castplan;

namespace {

LonLat at(double lon, double lat) { return {Longitude{lon}, Latitude{lat}}; }
double degrees(long long micro) { return static_cast<double>(micro) / 1e6; }

bool holds(const CellEdges& box, LonLat place) {
  return degrees(box.west) <= place.lon.degrees + 1e-6 && place.lon.degrees - 1e-6 <= degrees(box.east) &&
         degrees(box.south) <= place.lat.degrees + 1e-6 && place.lat.degrees - 1e-6 <= degrees(box.north);
}

}  // namespace

// Lengths by the geodesic on the WGS 84 ellipsoid (Karney 2013, as PROJ has it), not by the grid's own arithmetic.
TEST_CASE("every square is at least as long as asked, and holds its place") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> any_lon(-180.0, 180.0), any_lat(-89.5, 89.5);
  for (const double least : {100.0, 250.0, 500.0, 2000.0, 50000.0}) {
    const WorldGrid grid{Metres(least)};
    for (int i = 0; i < 300; ++i) {
      const LonLat place = at(any_lon(random), any_lat(random));
      const CellEdges box = grid.edges(grid.cell_of(place));
      INFO(least << " m at " << place.lon.degrees << ", " << place.lat.degrees);
      CHECK(holds(box, place));
      const double tall = geodesic(at(degrees(box.west), degrees(box.south)), at(degrees(box.west), degrees(box.north)))
                              .distance.value();
      CHECK(tall >= least);
      for (const long long side : {box.south, box.north}) {
        const double wide =
            geodesic(at(degrees(box.west), degrees(side)), at(degrees(box.east), degrees(side))).distance.value();
        // from one side of the earth to the other the shortest way is another one
        if (box.east - box.west < 90'000'000) CHECK(wide >= least * 0.999);
      }
    }
  }
}

TEST_CASE("a larger square is made of whole smaller ones") {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> any_lon(-180.0, 180.0), any_lat(-89.9, 89.9);
  const std::vector<double> sizes{100.0, 150.0, 300.0, 500.0, 700.0, 1000.0, 3000.0, 20000.0, 50000.0};
  for (int i = 0; i < 500; ++i) {
    const LonLat place = at(any_lon(random), any_lat(random));
    CellEdges inner;
    for (std::size_t size = 0; size < sizes.size(); ++size) {
      const WorldGrid grid{Metres(sizes[size])};
      const CellEdges box = grid.edges(grid.cell_of(place));
      INFO(sizes[size] << " m at " << place.lon.degrees << ", " << place.lat.degrees);
      if (size > 0) {
        CHECK(box.west <= inner.west);
        CHECK(box.south <= inner.south);
        CHECK(box.east >= inner.east);
        CHECK(box.north >= inner.north);
      }
      inner = box;
    }
  }
}

TEST_CASE("180 east is 180 west, and poles have squares too") {
  const WorldGrid grid{Metres(500)};
  CHECK(grid.cell_of(at(180.0, 10.0)) == grid.cell_of(at(-180.0, 10.0)));
  CHECK(holds(grid.edges(grid.cell_of(at(12.0, 90.0))), at(12.0, 90.0)));
  CHECK(holds(grid.edges(grid.cell_of(at(12.0, -90.0))), at(12.0, -90.0)));
  const auto beside = grid.neighbours(grid.cell_of(at(179.9999, 10.001)));
  CHECK(std::find(beside.begin(), beside.end(), grid.cell_of(at(-179.9999, 10.001))) != beside.end());
}

TEST_CASE("a neighbour has the square as its neighbour, and shares a part of an edge") {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> any_lon(-179.0, 179.0), any_lat(-85.0, 85.0);
  const WorldGrid grid{Metres(500)};
  for (int i = 0; i < 200; ++i) {
    const WorldCell cell = grid.cell_of(at(any_lon(random), any_lat(random)));
    const CellEdges own = grid.edges(cell);
    const auto all = grid.neighbours(cell);
    CHECK(all.size() >= 4);
    for (const WorldCell beside : all) {
      const CellEdges other = grid.edges(beside);
      CHECK((other.west == own.east || other.east == own.west || other.south == own.north || other.north == own.south));
      CHECK(std::max(own.west, other.west) <= std::min(own.east, other.east));
      CHECK(std::max(own.south, other.south) <= std::min(own.north, other.north));
      const auto back = grid.neighbours(beside);
      CHECK(std::find(back.begin(), back.end(), cell) != back.end());
    }
  }
}
