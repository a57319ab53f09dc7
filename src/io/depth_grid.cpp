// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/depth_grid.hpp"

#include <cpl_string.h>
#include <fmt/format.h>
#include <gdal.h>
#include <ogr_spatialref.h>

#include <array>
#include <atomic>
#include <cassert>
#include <cmath>
#include <vector>

#include "castplan/geo/error.hpp"
#include "io/gdal.hpp"

namespace castplan {
namespace {

constexpr float kNoData = -9999.0F;

/// The grids' own unit is the metre, whatever the projection's: a system in feet gets its corner in feet.
void set_place(GDALDatasetH out, const Frame& frame, const Projection& projection) {
  const double unit = projection.metres_per_unit();
  const double cell = frame.cell.value() / unit;
  std::array<double, 6> transform{frame.corner.x / unit, cell, 0, frame.corner.y / unit, 0, -cell};
  GDALSetGeoTransform(out, transform.data());
  OGRSpatialReference reference;
  reference.SetFromUserInput(projection.definition().c_str());
  GDALSetSpatialRef(out, OGRSpatialReference::ToHandle(&reference));
}

bool fill_band(GDALDatasetH out, int number, const Grid<Metres32>& grid, const char* what) {
  GDALRasterBandH band = GDALGetRasterBand(out, number);
  GDALSetRasterNoDataValue(band, static_cast<double>(kNoData));
  GDALSetRasterUnitType(band, "m");
  GDALSetDescription(band, what);
  std::vector<float> row(static_cast<std::size_t>(grid.cols()));
  for (int r = 0; r < grid.rows(); ++r) {
    for (int c = 0; c < grid.cols(); ++c) {
      const float value = grid[{r, c}].value();
      row[static_cast<std::size_t>(c)] = std::isnan(value) ? kNoData : value;
    }
    if (GDALRasterIO(band, GF_Write, 0, r, grid.cols(), 1, row.data(), grid.cols(), 1, GDT_Float32, 0, 0) != CE_None) {
      return false;
    }
  }
  return true;
}

}  // namespace

std::string depth_grid_tiff(const Grid<Metres32>& depth, const Grid<Metres32>& error, const Projection& projection,
                            const std::map<std::string, std::string>& metadata) {
  assert(depth.frame() == error.frame());
  const GdalMessages messages;
  static std::atomic<unsigned> number{0};
  const std::string name = fmt::format("/vsimem/castplan_depth_{}.tif", number++);
  const char* const how[] = {"COMPRESS=DEFLATE", "PREDICTOR=3", "TILED=YES", "INTERLEAVE=BAND", nullptr};
  Dataset out(GDALCreate(GDALGetDriverByName("GTiff"), name.c_str(), depth.cols(), depth.rows(), 2, GDT_Float32,
                         const_cast<char**>(how)));
  bool good = out != nullptr;
  if (good) {
    set_place(out.get(), depth.frame(), projection);
    for (const auto& [key, value] : metadata) GDALSetMetadataItem(out.get(), key.c_str(), value.c_str(), nullptr);
    good = fill_band(out.get(), 1, depth, "depth below the surface, positive down") &&
           fill_band(out.get(), 2, error, "standard error of the depth");
  }
  out.reset();
  std::string bytes = taken_bytes(name);
  if (!good || bytes.empty() || messages.failed()) {
    throw OutputError("depth grid: cannot be written as GeoTIFF" + messages.in_brackets());
  }
  return bytes;
}

}  // namespace castplan
