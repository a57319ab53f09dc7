// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "castplan/grid/sweep.hpp"
#include "io/rasters.hpp"
#include "support/programs.hpp"

using namespace castplan;
using namespace castplan::rasters;
using Catch::Matchers::Contains;

namespace {

/// The largest difference between two grids; infinite when frames or known cells differ.
double gap(const Grid<Metres32>& a, const Grid<Metres32>& b) {
  if (!(a.frame() == b.frame())) return std::numeric_limits<double>::infinity();
  double worst = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (std::isnan(a[i].value()) != std::isnan(b[i].value())) return std::numeric_limits<double>::infinity();
    if (!std::isnan(a[i].value())) {
      worst = std::max(worst, std::fabs(static_cast<double>(a[i].value()) - static_cast<double>(b[i].value())));
    }
  }
  return worst;
}

struct Lake {
  programs::Scratch scratch;
  Spec spec;
  Value depth = lake_on(Spec{});

  DepthRaster read(const std::string& name, const Value& value, RasterOptions options = {}) {
    options.path = scratch.path(name);
    options.shown = name;
    write(options.path, spec, value);
    return read_depth_raster(options);
  }
};

}  // namespace

TEST_CASE("one lake in metres, feet, fathoms, heights, elevations and scaled integers is the same lake") {
  Lake lake;
  const DepthRaster metres = lake.read("m.tif", lake.depth);
  CHECK_FALSE(metres.resampled);
  CHECK(metres.notes.empty());
  // float cells of at most 40 m are off by 2e-6 m; through elevations of 312 m by 1.6e-5 m
  CHECK(measured(metres).worst < 1e-5);

  SECTION("feet, by the file's tag: international foot 0.3048 m exactly (NIST SP 811, appendix B.6)") {
    lake.spec.unit = "ft";
    CHECK(gap(metres.depth, lake.read("ft.tif", [&](double c, double r) { return lake.depth(c, r) / 0.3048; }).depth) <
          1e-5);
  }
  SECTION("fathoms, by the option: six feet; the option beats the file and says so") {
    const DepthRaster fathoms =
        lake.read("fm.tif", [&](double c, double r) { return lake.depth(c, r) / 1.8288; }, {.unit = DepthUnit::fathom});
    CHECK(gap(metres.depth, fathoms.depth) < 1e-5);
    REQUIRE(fathoms.notes.size() == 1);
    CHECK_THAT(fathoms.notes[0], Contains("fm.tif, band 1") && Contains("unit m"));
  }
  SECTION("heights, negative down") {
    CHECK(gap(metres.depth,
              lake.read("h.tif", [&](double c, double r) { return -lake.depth(c, r); }, {.sense = Sense::height})
                  .depth) == 0);
  }
  SECTION("elevations under a surface") {
    CHECK(gap(metres.depth, lake.read("e.tif", [&](double c, double r) { return 312.4 - lake.depth(c, r); },
                                      {.sense = Sense::elevation, .surface = Metres(312.4)})
                                .depth) < 5e-5);
  }
  SECTION("elevations in feet under a surface in metres") {
    lake.spec.unit = "ft";
    CHECK(
        gap(metres.depth, lake.read("eft.tif", [&](double c, double r) { return (312.4 - lake.depth(c, r)) / 0.3048; },
                                    {.sense = Sense::elevation, .surface = Metres(312.4)})
                              .depth) < 1e-4);
  }
  SECTION("centimetres in 16 bits with a scale: half a centimetre of rounding") {
    lake.spec.type = GDT_Int16;
    lake.spec.scale = 0.01;
    CHECK(gap(metres.depth,
              lake.read("cm.tif", [&](double c, double r) { return std::round(100 * lake.depth(c, r)); }).depth) <=
          0.00501);
  }
}

TEST_CASE("however a file is cut into blocks, and on however many threads, its cells are read alike") {
  Lake lake;
  lake.spec.cols = 203;
  lake.spec.rows = 149;
  // whole quarters, which every type but the whole numbers holds
  const auto value = [](double column, double row) {
    return std::floor(4 * (3 + std::sin(column / 9) + std::cos(row / 7))) / 4;
  };
  int number = 0;
  for (const GDALDataType type : {GDT_Byte, GDT_Int16, GDT_UInt32, GDT_Float32, GDT_Float64}) {
    for (const auto& creation : std::vector<std::vector<std::string>>{
             {},
             {"BLOCKYSIZE=1"},
             {"BLOCKYSIZE=64", "COMPRESS=DEFLATE"},
             {"TILED=YES", "BLOCKXSIZE=16", "BLOCKYSIZE=32", "COMPRESS=LZW", "PREDICTOR=2"},
             {"TILED=YES", "BLOCKXSIZE=256", "BLOCKYSIZE=256", "COMPRESS=DEFLATE"}}) {
      lake.spec.type = type;
      lake.spec.creation = creation;
      if (type == GDT_Float64 && creation.size() == 5) lake.spec.creation.pop_back();  // no such predictor for it
      const bool whole = type != GDT_Float32 && type != GDT_Float64;
      const auto written = [&](double column, double row) {
        return whole ? std::floor(value(column, row)) : value(column, row);
      };
      for (const int count : {1, 2}) {
        set_threads(count);
        const DepthRaster read = lake.read("blocks" + std::to_string(number++) + ".tif", written);
        int wrong = 0;
        for (std::size_t i = 0; i < read.depth.size(); ++i) {
          const Cell at = read.depth.cell_of(i);
          wrong += static_cast<double>(read.depth[i].value()) != written(at.col + 0.5, at.row + 0.5);
        }
        INFO("type " << type << ", " << creation.size() << " options, " << count << " threads");
        CHECK(wrong == 0);
      }
    }
  }
  set_threads(0);
}

TEST_CASE("the level moves water and land alike") {
  Lake lake;
  const DepthRaster today = lake.read("low.tif", lake.depth, {.level_offset = Metres(-0.6)});
  double worst = 0;
  for (std::size_t i = 0; i < today.depth.size(); ++i) {
    const XY at = today.depth.frame().centre(today.depth.cell_of(i));
    worst = std::max(worst, std::fabs(today.depth[i].value() - (depth_at_home(at) - 0.6)));
  }
  CHECK(worst < 1e-5);
}

TEST_CASE("land written as 0 is not flooded by a rising lake, and that is said") {
  Lake lake;
  const auto clamped = [&](double c, double r) { return std::max(0.0, lake.depth(c, r)); };
  const double before = measured(lake.read("zero.tif", clamped)).area;
  const DepthRaster risen = lake.read("zero.tif", clamped, {.level_offset = Metres(0.5)});
  CHECK(measured(risen).area == before);
  REQUIRE(risen.notes.size() == 1);
  CHECK_THAT(risen.notes[0], Contains("no heights on land"));
}

TEST_CASE("no data is unknown, declared or not") {
  Lake lake;
  lake.spec.nodata = -9999;
  const DepthRaster declared = lake.read("nd.tif", water_only(lake.depth, -9999));
  const double area = measured(declared).area;
  // 5 m cells whose centre lies in the ellipse: 1 % is far more than their rounding of a 1.2 km shore
  CHECK(area == Approx(kArea).epsilon(0.01));
  CHECK(declared.notes.empty());

  lake.spec.nodata.reset();
  for (const double filler : {-9999.0, -32768.0, 1e6, 32767.0}) {
    const DepthRaster undeclared = lake.read("filler.tif", water_only(lake.depth, filler));
    INFO(filler);
    CHECK(gap(declared.depth, undeclared.depth) == 0);
    REQUIRE(undeclared.notes.size() == 1);
    CHECK_THAT(undeclared.notes[0], Contains("does not declare it"));
  }
  for (const double filler : {kNaN, -3.4028234663852886e38, std::numeric_limits<double>::infinity(),
                              -std::numeric_limits<double>::infinity()}) {
    INFO(filler);
    CHECK(gap(declared.depth, lake.read("odd.tif", water_only(lake.depth, filler)).depth) == 0);
  }
  SECTION("a value given by the user, only where the file declares none") {
    CHECK(gap(declared.depth, lake.read("own.tif", water_only(lake.depth, 77), {.nodata = 77}).depth) == 0);
    lake.spec.nodata = -9999;
    const DepthRaster stated = lake.read("both.tif", water_only(lake.depth, -9999), {.nodata = 5});
    CHECK(gap(declared.depth, stated.depth) == 0);
    REQUIRE(stated.notes.size() == 1);
    CHECK_THAT(stated.notes[0], Contains("nodata = 5 is not used"));
  }
  SECTION("a value of the list that belongs to the data stays: 9999 mm among depths up to 12 000 mm") {
    lake.spec.scale = 0.001;
    const DepthRaster millimetres = lake.read("mm.tif", [&](double c, double r) {
      const double mm = std::round(1000 * lake.depth(c, r));
      return std::fabs(mm - 9999) < 200 ? 9999 : mm;
    });
    CHECK(millimetres.notes.empty());
    CHECK(measured(millimetres).area == Approx(kArea).epsilon(0.01));
  }
}
