// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

// Rasters and layers of an invented lake in the open ocean, written by GDAL itself, in many guises. The lake is an
// elliptic paraboloid, so that its depth is known in closed form at any place, in any projection.

#include <gdal_priv.h>
#include <ogr_spatialref.h>
#include <ogrsf_frmts.h>

#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <memory>
#include <numbers>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "castplan/geo/error.hpp"
#include "castplan/geo/projection.hpp"
#include "castplan/io/raster.hpp"

namespace castplan::rasters {

inline constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
inline constexpr double kHalfWidth = 220.0;
inline constexpr double kHalfHeight = 160.0;
inline constexpr double kDeepest = 12.0;
inline const LonLat kMiddle{Longitude{-39.2}, Latitude{45.5}};
/// Ellipse: pi a b; paraboloid on it: half of area times depth.
inline constexpr double kArea = std::numbers::pi * kHalfWidth * kHalfHeight;
inline constexpr double kVolume = kArea * kDeepest / 2;

/// The plane in which the lake is an ellipse about the origin.
inline const Projection& home() {
  static const Projection plane = Projection::transverse_mercator(kMiddle);
  return plane;
}

/// Metres below the surface; on land minus the height above it.
inline double depth_at_home(XY at) {
  return kDeepest * (1 - std::pow(at.x / kHalfWidth, 2) - std::pow(at.y / kHalfHeight, 2));
}

inline double depth_at(LonLat place) { return depth_at_home(home().from_lonlat(place)); }

struct Spec {
  std::string crs = "+proj=tmerc +lat_0=45.5 +lon_0=-39.2 +datum=WGS84 +units=m";
  std::array<double, 6> transform = {-300, 5, 0, 250, 0, -5};
  int cols = 120;
  int rows = 100;
  GDALDataType type = GDT_Float32;
  std::optional<double> nodata;
  std::string unit = "m";
  std::optional<double> scale;
  std::string driver = "GTiff";
  std::vector<std::string> creation{};  ///< the driver's options, "TILED=YES"
};

using Value = std::function<double(double column, double row)>;

/// Writes value(column, row) of cell centres (0.5, 0.5 is the first).
inline void write(const std::string& path, const Spec& spec, const Value& value) {
  GDALAllRegister();
  GDALDriver* driver = GetGDALDriverManager()->GetDriverByName(spec.driver.c_str());
  if (driver == nullptr) throw std::runtime_error("no driver " + spec.driver);
  std::vector<char*> creation;
  for (const std::string& option : spec.creation) creation.push_back(const_cast<char*>(option.c_str()));
  creation.push_back(nullptr);
  const std::unique_ptr<GDALDataset> out(
      driver->Create(path.c_str(), spec.cols, spec.rows, 1, spec.type, creation.data()));
  if (!out) throw std::runtime_error("cannot write " + path);
  auto transform = spec.transform;
  if (transform != std::array<double, 6>{0, 1, 0, 0, 0, 1}) out->SetGeoTransform(transform.data());
  if (!spec.crs.empty()) {
    OGRSpatialReference reference;
    reference.SetFromUserInput(spec.crs.c_str());
    out->SetSpatialRef(&reference);
  }
  GDALRasterBand* band = out->GetRasterBand(1);
  if (spec.nodata) band->SetNoDataValue(*spec.nodata);
  if (!spec.unit.empty()) band->SetUnitType(spec.unit.c_str());
  if (spec.scale) band->SetScale(*spec.scale);
  std::vector<double> row(static_cast<std::size_t>(spec.cols));
  for (int r = 0; r < spec.rows; ++r) {
    for (int c = 0; c < spec.cols; ++c) row[static_cast<std::size_t>(c)] = value(c + 0.5, r + 0.5);
    if (band->RasterIO(GF_Write, 0, r, spec.cols, 1, row.data(), spec.cols, 1, GDT_Float64, 0, 0, nullptr) != CE_None) {
      throw std::runtime_error("cannot write " + path);
    }
  }
}

/// The lake's depth at cell centres of the spec's own grid, through its own projection.
inline Value lake_on(const Spec& spec) {
  const Projection projection = Projection::from_text(spec.crs);
  const double unit = projection.is_geographic() ? 1 : projection.metres_per_unit();
  const auto t = spec.transform;
  return [projection, unit, t](double c, double r) {
    const XY plane{t[0] + t[1] * c + t[2] * r, t[3] + t[4] * c + t[5] * r};
    return depth_at(projection.to_lonlat(plane * unit));
  };
}

/// A value for water only; no data (given) on land.
inline Value water_only(Value depth, double nodata) {
  return [depth = std::move(depth), nodata](double c, double r) {
    const double d = depth(c, r);
    return d > 0 ? d : nodata;
  };
}

/// What an InputError says; empty when none is thrown.
inline std::string complaint(const std::function<void()>& work) {
  try {
    work();
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

/// Water cells: how many, their area and volume, and the largest difference from the closed form at known cells.
struct Measured {
  double area = 0;
  double volume = 0;
  double worst = 0;
  double worst_in_water = 0;
};

inline Measured measured(const DepthRaster& raster) {
  Measured out;
  const double cell = raster.depth.frame().cell_area().value();
  for (std::size_t i = 0; i < raster.depth.size(); ++i) {
    const double d = raster.depth[i].value();
    if (std::isnan(d)) continue;
    const XY centre = raster.depth.frame().centre(raster.depth.cell_of(i));
    const double off = std::fabs(d - depth_at(raster.projection.to_lonlat(centre)));
    out.worst = std::max(out.worst, off);
    if (d <= 0) continue;
    out.worst_in_water = std::max(out.worst_in_water, off);
    out.area += cell;
    out.volume += d * cell;
  }
  return out;
}

}  // namespace castplan::rasters
