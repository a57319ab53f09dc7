// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>

#include "castplan/terrain/slope.hpp"
#include "support/lakes.hpp"

// Slope and aspect against `gdaldem` (GDAL's command line program), cell by cell, on a raster in UTM zone 24 N.

using namespace castplan;
namespace fs = std::filesystem;

namespace {

constexpr float kNoData = -9999.0F;

struct TempFolder {
  fs::path path;
  TempFolder() {
    std::string name = (fs::temp_directory_path() / "castplan_gdaldem_XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~TempFolder() { fs::remove_all(path); }
};

/// Humps, pits and noise on a frame in UTM 24 N, with unknown cells outside a circle.
Grid<Metres32> rough_lake() {
  std::mt19937 random(20240611);
  std::normal_distribution<double> noise(0.0, 0.3);
  Grid<Metres32> depth({.corner = {421000, 5038000}, .cell = Metres(4), .rows = 150, .cols = 170});
  for (std::size_t i = 0; i < depth.size(); ++i) {
    const XY at = depth.frame().centre(depth.cell_of(i)) - XY{421340, 5037700};
    const double value = 8 + 5 * std::sin(at.x / 40) * std::cos(at.y / 25) + 0.01 * at.x + noise(random);
    depth[i] = Metres32(std::hypot(at.x, at.y) < 280 ? static_cast<float>(value) : lakes::kUnknown.value());
  }
  return depth;
}

void write_ascii(const Grid<Metres32>& grid, const fs::path& file) {
  std::ofstream out(file);
  const Frame& frame = grid.frame();
  out.precision(12);
  out << "ncols " << frame.cols << "\nnrows " << frame.rows << "\nxllcorner " << frame.corner.x << "\nyllcorner "
      << frame.corner.y - frame.rows * frame.cell.value() << "\ncellsize " << frame.cell.value()
      << "\nNODATA_value -9999\n";
  out.precision(9);
  for (int row = 0; row < frame.rows; ++row) {
    for (const Metres32 cell : grid.row(row)) out << (std::isnan(cell.value()) ? kNoData : cell.value()) << ' ';
    out << '\n';
  }
}

std::vector<float> read_ascii(const fs::path& file) {
  std::ifstream in(file);
  std::vector<float> values;
  std::string word;
  while (in >> word) {
    if (std::isalpha(static_cast<unsigned char>(word[0])) != 0) {
      in >> word;  // a header line: name and value
    } else {
      values.push_back(std::stof(word));
    }
  }
  return values;
}

void run(const std::string& command) {
  INFO(command);
  REQUIRE(std::system(command.c_str()) == 0);
}

/// What gdaldem makes of a grid, row by row; -9999 where it has no value.
std::vector<float> gdaldem(const std::string& mode, const Grid<Metres32>& grid) {
  const TempFolder folder;
  const std::string base = folder.path.string() + "/";
  write_ascii(grid, base + "in.asc");
  run("gdal_translate -q -ot Float32 -a_srs EPSG:32624 " + base + "in.asc " + base + "in.tif");
  run("gdaldem " + mode + " -q " + base + "in.tif " + base + "out.tif");
  run("gdal_translate -q -of AAIGrid -co SIGNIFICANT_DIGITS=9 " + base + "out.tif " + base + "out.asc");
  return read_ascii(base + "out.asc");
}

struct Difference {
  double largest = 0;
  int compared = 0;
  int unknown_apart = 0;  ///< cells that only one of the two knows
};

Difference compare(const Grid<Degrees32>& ours, const std::vector<float>& theirs) {
  REQUIRE(theirs.size() == ours.size());
  Difference difference;
  for (std::size_t i = 0; i < ours.size(); ++i) {
    const bool known = !std::isnan(ours[i].value());
    if (known != (theirs[i] > kNoData)) {
      ++difference.unknown_apart;
    } else if (known) {
      const double off = std::remainder(static_cast<double>(ours[i].value()) - static_cast<double>(theirs[i]), 360.0);
      difference.largest = std::max(difference.largest, std::abs(off));
      ++difference.compared;
    }
  }
  return difference;
}

}  // namespace

TEST_CASE("slope equals gdaldem slope on a projected raster") {
  const auto depth = rough_lake();
  const Difference found = compare(slope(depth), gdaldem("slope -alg Horn", depth));
  std::printf("slope against gdaldem: largest difference %.2g degrees over %d cells\n", found.largest, found.compared);
  CHECK(found.compared > 14000);
  CHECK(found.unknown_apart == 0);
  CHECK(found.largest < 1e-3);
}

TEST_CASE("aspect equals gdaldem aspect of the negated depths") {
  auto depth = rough_lake();
  const auto ours = aspect(depth);
  for (Metres32& cell : depth.cells()) cell = -cell;
  const Difference found = compare(ours, gdaldem("aspect", depth));
  std::printf("aspect against gdaldem: largest difference %.2g degrees over %d cells\n", found.largest, found.compared);
  CHECK(found.compared > 14000);
  CHECK(found.unknown_apart == 0);
  CHECK(found.largest < 1e-2);
}
