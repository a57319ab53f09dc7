// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/raster.hpp"

#include <fmt/format.h>
#include <gdal_priv.h>

#include "castplan/geo/error.hpp"
#include "io/gdal.hpp"
#include "io/pixel_map.hpp"
#include "io/raster_values.hpp"
#include "io/reference.hpp"
#include "io/working_grid.hpp"

namespace castplan {
namespace {

constexpr double kMostCells = 2147483648.0;

std::string subdatasets(GDALDatasetH dataset) {
  std::string names;
  char** list = GDALGetMetadata(dataset, "SUBDATASETS");
  for (int i = 0; list != nullptr && list[i] != nullptr; ++i) {
    const std::string line = list[i];
    const auto mark = line.find("_NAME=");
    if (mark == std::string::npos) continue;
    names += (names.empty() ? "" : ", ") + line.substr(mark + 6);
  }
  return names;
}

GDALRasterBandH band_of(GDALDatasetH dataset, const RasterOptions& options, const std::string& shown) {
  const int count = GDALGetRasterCount(dataset);
  if (count == 0) {
    const std::string inside = subdatasets(dataset);
    throw InputError(fmt::format("{}: holds no raster band{}", shown,
                                 inside.empty() ? "" : "; name one of the rasters inside it: " + inside));
  }
  if (options.band < 1 || options.band > count) {
    throw InputError(fmt::format("{}: no band {}; it has 1 to {}", shown, options.band, count));
  }
  GDALRasterBandH band = GDALGetRasterBand(dataset, options.band);
  if (GDALDataTypeIsComplex(GDALGetRasterDataType(band)) != 0) {
    throw InputError(fmt::format("{}, band {}: holds complex numbers; expected depths", shown, options.band));
  }
  return band;
}

void check_size(GDALDatasetH dataset, const std::string& shown) {
  const int cols = GDALGetRasterXSize(dataset);
  const int rows = GDALGetRasterYSize(dataset);
  if (cols < 3 || rows < 3) {
    throw InputError(fmt::format("{}: has {} by {} cells; a lake needs at least 3 by 3", shown, cols, rows));
  }
  if (static_cast<double>(cols) * static_cast<double>(rows) > kMostCells) {
    throw InputError(
        fmt::format("{}: has {} by {} cells, more than 2^31; cut the lake out of it first (gdal_translate -projwin)",
                    shown, cols, rows));
  }
}

Projection projection_of(GDALDatasetH dataset, const RasterOptions& options, const std::string& shown,
                         std::vector<std::string>& notes) {
  auto* opened = static_cast<GDALDataset*>(dataset);
  const OGRSpatialReference* reference = opened->GetSpatialRef();
  if (reference == nullptr || reference->IsEmpty()) reference = opened->GetGCPSpatialRef();
  const std::string stated = reference_text(reference);
  if (stated.empty()) {
    if (options.crs.empty()) {
      throw InputError(
          fmt::format("{}: states no CRS, so its place on the earth is not known; say which: --crs EPSG:... "
                      "(or crs = \"EPSG:...\" under [depth])",
                      shown));
    }
    return Projection::from_text(options.crs);
  }
  try {
    Projection own = Projection::from_text(stated);
    if (!options.crs.empty() && Projection::from_text(options.crs).name() != own.name()) {
      notes.push_back(fmt::format("{}: the file states its CRS ({}), so the one given ({}) is not used", shown,
                                  own.name(), options.crs));
    }
    return own;
  } catch (const InputError& error) {
    throw InputError(fmt::format("{}: its CRS cannot be used: {}", shown, error.what()));
  }
}

Projection about_middle(const Projection& projection, const PixelMap& map, GDALRasterBandH band) {
  const XY middle = map.to_plane({GDALGetRasterBandXSize(band) / 2.0, GDALGetRasterBandYSize(band) / 2.0});
  return projection.near(middle * projection.metres_per_unit());
}

}  // namespace

DepthRaster read_depth_raster(const RasterOptions& options) {
  const std::string shown = options.shown.empty() ? options.path : options.shown;
  const Dataset dataset = open_dataset(options.path, shown, DataKind::raster);
  const GdalMessages quiet;
  GDALRasterBandH band = band_of(dataset.get(), options, shown);
  check_size(dataset.get(), shown);
  const std::string where = fmt::format("{}, band {}", shown, options.band);
  std::vector<std::string> notes;
  const PixelMap map = PixelMap::of(dataset.get(), shown);
  const Projection projection = about_middle(projection_of(dataset.get(), options, shown, notes), map, band);
  const double metres_per = metres_per_value(band, options, where, notes);
  const Frame frame = own_frame(map, projection, GDALGetRasterBandYSize(band), GDALGetRasterBandXSize(band));
  Grid<Metres32> depth = raw_values(band, frame, options, where, notes);
  to_depths(depth, band, metres_per, options, where, notes);
  DepthRaster out = on_working_grid(std::move(depth), map, projection, shown);
  out.notes.insert(out.notes.begin(), notes.begin(), notes.end());
  return out;
}

}  // namespace castplan
