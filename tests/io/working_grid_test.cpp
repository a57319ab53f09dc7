// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <gdal_utils.h>

#include <catch2/catch.hpp>

#include "io/rasters.hpp"
#include "support/programs.hpp"

using namespace castplan;
using namespace castplan::rasters;
using Catch::Matchers::Contains;

namespace {

DepthRaster read_as(const Spec& spec, const Value& value, const std::string& crs = "") {
  const programs::Scratch scratch;
  RasterOptions options{.path = scratch.path("k.tif"), .shown = "k.tif", .crs = crs};
  write(options.path, spec, value);
  return read_depth_raster(options);
}

/// A grid in another projection that covers the lake and 60 m about it, cells of about the given ground size.
Spec covering(const std::string& crs, double width, double height) {
  Spec spec;
  spec.crs = crs;
  const Projection projection = Projection::from_text(crs);
  const double unit = projection.is_geographic() ? 1 : projection.metres_per_unit();
  XY low{1e300, 1e300};
  XY high{-1e300, -1e300};
  for (const XY corner : {XY{-280, -220}, XY{-280, 220}, XY{280, -220}, XY{280, 220}}) {
    const XY at = projection.from_lonlat(home().to_lonlat(corner)) * (1 / unit);
    low = {std::min(low.x, at.x), std::min(low.y, at.y)};
    high = {std::max(high.x, at.x), std::max(high.y, at.y)};
  }
  const Projection::Scale scale = projection.scale_at(kMiddle);
  // a degree of latitude is 111 132 m, of longitude 111 320 m times the cosine (rounded; only a cell's size hangs on
  // it)
  const double cosine = std::cos(kMiddle.lat.degrees * std::numbers::pi / 180);
  const double dx = projection.is_geographic() ? width / (111320 * cosine) : width * scale.parallel / unit;
  const double dy = projection.is_geographic() ? height / 111132 : height * scale.parallel / unit;
  spec.transform = {low.x, dx, 0, high.y, 0, -dy};
  spec.cols = static_cast<int>(std::ceil((high.x - low.x) / dx));
  spec.rows = static_cast<int>(std::ceil((high.y - low.y) / dy));
  return spec;
}

void check_kept(const Spec& spec) {
  const DepthRaster raster = read_as(spec, lake_on(spec));
  CHECK_FALSE(raster.resampled);
  CHECK(raster.why_resampled.empty());
  // float rounding only
  CHECK(measured(raster).worst < 1e-5);
}

/// Heights on land known: bilinear interpolation of a paraboloid is off by at most (h^2 / 8)(f_xx + f_yy), 0.0045 m
/// for cells of 5 m (standard interpolation bound, closed form).
void check_warped(const Spec& spec, const std::string& why, double cell) {
  const DepthRaster raster = read_as(spec, lake_on(spec));
  REQUIRE(raster.resampled);
  CHECK_THAT(raster.why_resampled, Contains(why));
  REQUIRE_FALSE(raster.notes.empty());
  CHECK_THAT(raster.notes.back(), Contains("45.50 N 39.20 W") && Contains(why));
  CHECK(raster.depth.frame().cell.value() == Approx(cell).epsilon(0.01));
  const Measured found = measured(raster);
  const double curve = 2 * kDeepest * (1 / (kHalfWidth * kHalfWidth) + 1 / (kHalfHeight * kHalfHeight));
  CHECK(found.worst_in_water < 1.5 * cell * cell / 8 * curve + 1e-4);
  CHECK(found.area == Approx(kArea).epsilon(0.005));
  CHECK(found.volume == Approx(kVolume).epsilon(0.005));
}

}  // namespace

TEST_CASE("a true grid keeps its own cells") {
  const std::string plane = "+proj=tmerc +lat_0=45.5 +lon_0=-39.2 +datum=WGS84";
  SECTION("as it is") {
    const Spec spec;
    const DepthRaster raster = read_as(spec, lake_on(spec));
    CHECK(raster.depth.frame() == Frame{{-300, 250}, Metres(5), 100, 120});
    check_kept(spec);
  }
  SECTION("UTM: scale 0.9996 on the meridian, within 0.2 %") { check_kept(covering("EPSG:32624", 5, 5)); }
  SECTION("US survey feet: 1200/3937 m (NIST SP 811, appendix B.6)") {
    Spec spec;
    spec.crs = plane + " +units=us-ft";
    const double foot = 1200.0 / 3937.0;
    spec.transform = {-300 / foot, 5 / foot, 0, 250 / foot, 0, -5 / foot};
    const DepthRaster raster = read_as(spec, lake_on(spec));
    CHECK(raster.depth.frame().cell.value() == Approx(5).epsilon(1e-9));
    CHECK(raster.depth.frame().corner.x == Approx(-300).epsilon(1e-9));
    check_kept(spec);
  }
  SECTION("rows from the south, columns from the east") {
    const Spec plain;
    const Grid<Metres32> expected = read_as(plain, lake_on(plain)).depth;
    Spec turned;
    turned.transform = {300, -5, 0, -250, 0, 5};
    const DepthRaster raster = read_as(turned, lake_on(turned));
    CHECK_FALSE(raster.resampled);
    REQUIRE(raster.depth.frame() == expected.frame());
    bool same = true;
    for (std::size_t i = 0; i < expected.size(); ++i) same = same && expected[i] == raster.depth[i];
    CHECK(same);
  }
  SECTION("a stated CRS is kept though another is given, and that is said") {
    const Spec spec;
    const DepthRaster raster = read_as(spec, lake_on(spec), "EPSG:32633");
    CHECK(measured(raster).worst < 1e-5);
    REQUIRE(raster.notes.size() == 1);
    CHECK_THAT(raster.notes[0], Contains("EPSG:32633") && Contains("is not used"));
  }
}

TEST_CASE("any other grid is resampled, and the lake stays the same") {
  SECTION("degrees") { check_warped(covering("EPSG:4326", 5, 5), "degrees", 5); }
  SECTION("web Mercator: 1 / cos(45.5 deg) = 1.427 too large, and spherical formulas on an ellipsoid change shapes") {
    check_warped(covering("EPSG:3857", 5, 5), "changes shapes", 5);
  }
  SECTION("UTM far from its meridian: 9.8 degrees east, scale 1.0067") {
    check_warped(covering("EPSG:32622", 5, 5), "off scale", 5);
  }
  SECTION("equal area, away from its standard parallels") {
    // area is true there, so a cell that is 5 m times the scale of the parallel stays that large
    const std::string crs = "+proj=aea +lat_1=20 +lat_2=60 +lat_0=45 +lon_0=-50 +datum=WGS84";
    check_warped(covering(crs, 5, 5), "changes shapes", 5 * Projection::from_text(crs).scale_at(kMiddle).parallel);
  }
  SECTION("oblong cells") {
    check_warped(covering("+proj=tmerc +lat_0=45.5 +lon_0=-39.2 +datum=WGS84 +units=m", 4, 8), "not square",
                 std::sqrt(32.0));
  }
  SECTION("turned by 30 degrees") {
    Spec spec;
    const double s = 5 * std::sin(std::numbers::pi / 6);
    const double c = 5 * std::cos(std::numbers::pi / 6);
    spec.cols = spec.rows = 130;
    // begun so that the middle of the raster is the middle of the lake
    spec.transform = {-65 * (c + s), c, s, -65 * (s - c), s, -c};
    check_warped(spec, "do not run along the axes", 5);
  }
}

TEST_CASE("no data keeps its place when resampled") {
  // the ellipse alone, nothing known on land: area within 0.5 %, volume within 0.5 %
  for (const char* crs : {"EPSG:4326", "EPSG:3857", "EPSG:32622"}) {
    INFO(crs);
    Spec spec = covering(crs, 5, 5);
    spec.nodata = -9999;
    const DepthRaster raster = read_as(spec, water_only(lake_on(spec), -9999));
    const Measured found = measured(raster);
    CHECK(found.area == Approx(kArea).epsilon(0.005));
    CHECK(found.volume == Approx(kVolume).epsilon(0.005));
    for (const Metres32 cell : raster.depth.cells()) {
      if (!std::isnan(cell.value())) REQUIRE((cell.value() > 0 && cell.value() <= kDeepest));
    }
  }
  SECTION("land written as 0 does not become water either") {
    const Spec spec = covering("EPSG:4326", 5, 5);
    const auto depth = lake_on(spec);
    const DepthRaster raster = read_as(spec, [&](double c, double r) { return std::max(0.0, depth(c, r)); });
    CHECK(measured(raster).area == Approx(kArea).epsilon(0.005));
  }
}

namespace {

/// Largest difference from what gdalwarp makes on the same cells, where all sixteen cells about a place are water: our
/// rule at the shore is our own.
struct Compared {
  double worst = 0;
  int cells = 0;
};
Compared with_gdalwarp(const Value& lake, std::string way) {
  const programs::Scratch scratch;
  const Spec spec = covering("EPSG:4326", 5, 5);
  RasterOptions options{.path = scratch.path("k.tif"), .shown = "k.tif"};
  write(options.path, spec, lake);
  const DepthRaster ours = read_depth_raster(options);
  const Frame& frame = ours.depth.frame();
  OGRSpatialReference target;
  target.SetFromUserInput(ours.projection.definition().c_str());
  char* wkt = nullptr;
  target.exportToWkt(&wkt);
  char cells[2][32];
  std::snprintf(cells[0], sizeof cells[0], "%d", frame.cols);
  std::snprintf(cells[1], sizeof cells[1], "%d", frame.rows);
  std::vector<std::string> words = {"-of", "MEM",        "-r",  std::move(way), "-et",    "0",      "-t_srs",
                                    wkt,   "-dstnodata", "nan", "-ts",          cells[0], cells[1], "-te"};
  CPLFree(wkt);
  char edge[64];
  const double cell = frame.cell.value();
  for (const double value :
       {frame.corner.x, frame.corner.y - frame.rows * cell, frame.corner.x + frame.cols * cell, frame.corner.y}) {
    std::snprintf(edge, sizeof edge, "%.9f", value);
    words.emplace_back(edge);
  }
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  GDALWarpAppOptions* how = GDALWarpAppOptionsNew(arguments.data(), nullptr);
  GDALDatasetH source = GDALOpen(options.path.c_str(), GA_ReadOnly);
  GDALDatasetH warped = GDALWarp("", nullptr, 1, &source, how, nullptr);
  GDALWarpAppOptionsFree(how);
  REQUIRE(warped != nullptr);
  std::vector<float> theirs(ours.depth.size());
  REQUIRE(GDALRasterIO(GDALGetRasterBand(warped, 1), GF_Read, 0, 0, frame.cols, frame.rows, theirs.data(), frame.cols,
                       frame.rows, GDT_Float32, 0, 0) == CE_None);
  GDALClose(warped);
  GDALClose(source);
  Compared out;
  constexpr float kFromShore = 3;  // metres of depth: more than three cells from the shore here
  for (std::size_t i = 0; i < theirs.size(); ++i) {
    if (std::isnan(theirs[i]) || !(ours.depth[i].value() > kFromShore)) continue;
    const double apart = std::fabs(static_cast<double>(theirs[i]) - static_cast<double>(ours.depth[i].value()));
    out.worst = std::max(out.worst, apart);
    ++out.cells;
  }
  return out;
}

}  // namespace

// gdalwarp 3.6.2 takes the same cells; what is left is the place (1e-4 of a cell on a slope of 0.15) and floats.
TEST_CASE("resampled depths are those of gdalwarp: cubic, and its smoothing spline for a stair") {
  const Value smooth = lake_on(covering("EPSG:4326", 5, 5));
  const Compared curved = with_gdalwarp(smooth, "cubic");
  CHECK(curved.cells > 2000);
  CHECK(curved.worst < 1e-3);
  const Value stair = [&](double c, double r) { return std::round(smooth(c, r) * 2) / 2; };
  const Compared straight = with_gdalwarp(stair, "cubicspline");
  CHECK(straight.cells > 2000);
  CHECK(straight.worst < 1e-3);
  CHECK(with_gdalwarp(stair, "cubic").worst > 0.01);
}
