// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/pixel_map.hpp"

#include <fmt/format.h>
#include <gdal_alg.h>

#include <cmath>
#include <limits>

#include "castplan/geo/error.hpp"
#include "io/gdal.hpp"

namespace castplan {
namespace {

constexpr std::array<double, 6> kIdentity = {0, 1, 0, 0, 0, 1};

XY applied(const std::array<double, 6>& t, XY p) {
  return {t[0] + t[1] * p.x + t[2] * p.y, t[3] + t[4] * p.x + t[5] * p.y};
}

XY by_points(void* transformer, XY place, bool back) {
  double z = 0;
  int good = 0;
  GDALGCPTransform(transformer, back ? TRUE : FALSE, 1, &place.x, &place.y, &z, &good);
  if (good != 0) return place;
  return {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::quiet_NaN()};
}

}  // namespace

PixelMap PixelMap::of(GDALDatasetH dataset, const std::string& shown) {
  const GdalMessages messages;
  PixelMap map;
  map.cols_ = GDALGetRasterXSize(dataset);
  map.rows_ = GDALGetRasterYSize(dataset);
  const bool stated = GDALGetGeoTransform(dataset, map.affine_.data()) == CE_None && map.affine_ != kIdentity;
  if (stated) {
    if (GDALInvGeoTransform(map.affine_.data(), map.inverse_.data()) == 0) {
      throw InputError(fmt::format("{}: its georeference has cells of no size; expected a width and a height", shown));
    }
    return map;
  }
  const int count = GDALGetGCPCount(dataset);
  if (count >= 3) {
    map.points_ =
        std::shared_ptr<void>(GDALCreateGCPTransformer(count, GDALGetGCPs(dataset), 0, FALSE), [](void* transformer) {
          if (transformer != nullptr) GDALDestroyGCPTransformer(transformer);
        });
    if (map.points_) return map;
  }
  throw InputError(
      fmt::format("{}: does not say where its cells lie (no georeference); give it one, with a world file beside it or "
                  "with gdal_translate -a_ullr{}",
                  shown, messages.in_brackets()));
}

XY PixelMap::to_plane(XY pixel) const {
  return points_ ? by_points(points_.get(), pixel, false) : applied(affine_, pixel);
}

XY PixelMap::to_pixel(XY plane) const {
  return points_ ? by_points(points_.get(), plane, true) : applied(inverse_, plane);
}

bool PixelMap::aligned() const {
  if (points_) return false;
  const double skew_x = std::fabs(affine_[2]) * rows_ / std::fabs(affine_[1]);
  const double skew_y = std::fabs(affine_[4]) * cols_ / std::fabs(affine_[5]);
  return skew_x < 1e-3 && skew_y < 1e-3;
}

}  // namespace castplan
