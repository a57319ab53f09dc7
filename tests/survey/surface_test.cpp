// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/survey/surface.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "survey/gdal_gridding.hpp"
#include "survey/known_surfaces.hpp"

using namespace castplan;
using namespace castplan::known;

namespace {

constexpr const char* kLinear = "linear:radius=0:nodata=0";
constexpr const char* kInverse = "invdistnn:power=2:radius=160:max_points=12:min_points=1:nodata=0";

/// Depth outside the lake does not count for the share of flat cells either.
Grid<Metres32> inside_only(const KnownLake& lake, Grid<Metres32> grid) {
  for (std::size_t i = 0; i < grid.size(); ++i) {
    if (!in_water(lake, grid.frame().centre(grid.cell_of(i)))) grid[i] = Metres32(std::nanf(""));
  }
  return grid;
}

std::string line(const std::string& name, const Score& score, double flat) {
  return name + ": RMSE " + std::to_string(score.rmse) + " m, deepest " + std::to_string(score.deepest) + " of " +
         std::to_string(score.true_deepest) + " m, flat " + std::to_string(100.0 * flat) + " %\n";
}

/// The contour of a lobed paraboloid is its shore, made smaller: depth 20 (1 - s^2) at a share s of the radius.
std::vector<DepthContour> exact_contours(const KnownLake& lake, double interval) {
  std::vector<DepthContour> result;
  for (double depth = 0.0; depth < 20.0; depth += interval) {
    result.push_back({.line = shore_ring(lake, std::sqrt(1.0 - depth / 20.0)), .depth = Metres(depth)});
  }
  return result;
}

void compare(const KnownLake& lake, const std::vector<Sounding>& soundings, const std::vector<DepthContour>& contours,
             double most_rmse, double deepest_within) {
  const Frame frame = frame_of();
  const Polygons shore = shoreline(lake);
  const Surface surface = fit_surface(frame, shore, soundings, contours);
  const Score ours = score(lake, surface.depth);
  const auto points = as_points(shore, soundings, contours);
  const Grid<Metres32> linear = inside_only(lake, gdal_grid(points, frame, kLinear));
  const Grid<Metres32> inverse = inside_only(lake, gdal_grid(points, frame, kInverse));
  const Score by_linear = score(lake, linear);
  const Score by_inverse = score(lake, inverse);
  const std::string table = lake.name + "\n" + line("surface", ours, surface.flat_share) +
                            line("gdal_grid linear", by_linear, flat_share(linear)) +
                            line("gdal_grid inverse distance", by_inverse, flat_share(inverse));
  INFO(table);
  CHECK(ours.rmse < most_rmse);
  CHECK(ours.rmse < by_linear.rmse);
  CHECK(ours.rmse < by_inverse.rmse);
  CHECK(std::abs(ours.deepest - ours.true_deepest) < deepest_within);
  CHECK(surface.flat_share < 0.005);
  CHECK(surface.flat_share <= flat_share(linear));
  CHECK(surface.flat_share <= flat_share(inverse));
}

}  // namespace

// 20 m deep at the centre, by its formula; three whole lobes, contours 0, 3 ... 18 m.
TEST_CASE("a lobed paraboloid keeps its hole") {
  const KnownLake lake = lobed();
  const auto contours = exact_contours(lake, 3.0);
  const Surface surface = fit_surface(frame_of(), shoreline(lake), {}, contours);
  const Score ours = score(lake, surface.depth);
  const Grid<Metres32> linear =
      inside_only(lake, gdal_grid(as_points(shoreline(lake), {}, contours), frame_of(), kLinear));
  const Score by_linear = score(lake, linear);
  INFO(line("surface", ours, surface.flat_share) << line("gdal_grid linear", by_linear, flat_share(linear)));
  CHECK(std::abs(ours.deepest - 20.0) < 0.3);
  CHECK(ours.rmse < 0.1);
  CHECK(surface.flat_share < 0.005);
  CHECK(std::hypot(surface.deepest_at.x, surface.deepest_at.y) < 15.0);
  // what the same contours give by flat triangles: the pool ends at its last contour
  CHECK(by_linear.deepest == Approx(18.0).margin(0.01));
  CHECK(by_linear.rmse > 0.3);
  CHECK(flat_share(linear) > 0.05);
  CHECK(surface.interval.value() == Approx(3.0));
  CHECK(surface.deepest_datum.value() == Approx(18.0));
  CHECK(surface.contour_rmse < Metres(0.05));
}

TEST_CASE("known surfaces from contours, beside gdal_grid") {
  compare(paraboloid(), {}, contours(paraboloid()), 0.02, 0.1);
  compare(lobed(), {}, contours(lobed()), 0.06, 0.3);
  compare(holes(), {}, contours(holes()), 0.10, 0.3);
  compare(ridge(), {}, contours(ridge()), 0.08, 0.3);
}

// Noise 0.1 m on each sounding: the surface averages it, flat triangles through each sounding do not.
TEST_CASE("known surfaces from the tracks of a boat, beside gdal_grid") {
  for (const KnownLake& lake : {paraboloid(), lobed(), holes(), ridge()}) {
    compare(lake, tracks(lake), {}, 0.06, 0.2);
  }
}

TEST_CASE("known surfaces from contours and tracks together") {
  for (const KnownLake& lake : {paraboloid(), lobed(), holes(), ridge()}) {
    compare(lake, tracks(lake, {.apart = 150.0}), contours(lake), 0.08, 0.3);
  }
}

TEST_CASE("the surface keeps to the data within their own error") {
  for (const KnownLake& lake : {lobed(), ridge()}) {
    const Surface surface = fit_surface(frame_of(), shoreline(lake), tracks(lake), contours(lake));
    INFO(lake.name);
    CHECK(surface.sounding_rmse < Metres(0.1));   // their noise
    CHECK(surface.sounding_rmse > Metres(0.06));  // not followed either
    CHECK(surface.contour_rmse < Metres(0.02));
    CHECK(surface.soundings == tracks(lake).size());
  }
}

TEST_CASE("a finer grid shows the same lake") {
  const KnownLake lake = holes();
  const Surface coarse = fit_surface(frame_of(10.0), shoreline(lake), {}, contours(lake));
  const Surface fine = fit_surface(frame_of(2.5), shoreline(lake), {}, contours(lake));
  CHECK(score(lake, coarse.depth).rmse < 0.12);
  CHECK(score(lake, fine.depth).rmse < 0.12);
  CHECK(std::abs(score(lake, coarse.depth).deepest - score(lake, fine.depth).deepest) < 0.2);
}
