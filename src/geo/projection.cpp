// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/projection.hpp"

#include <fmt/format.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "castplan/geo/error.hpp"
#include "castplan/geo/geodesic.hpp"
#include "geo/proj_handles.hpp"

namespace castplan {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

/// Both coordinates, NaN where PROJ has no answer.
XY transformed(PJ* operation, PJ_DIRECTION direction, double x, double y) {
  const PJ_COORD result = proj_trans(operation, direction, proj_coord(x, y, 0.0, HUGE_VAL));
  if (!std::isfinite(result.xy.x) || !std::isfinite(result.xy.y)) {
    constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
    proj_errno_reset(operation);
    return {kNone, kNone};
  }
  return {result.xy.x, result.xy.y};
}

std::optional<Metres> stated_accuracy(const ProjContext& context, const PJ* operation) {
  const double metres = proj_coordoperation_get_accuracy(context.get(), operation);
  if (!(metres >= 0)) return std::nullopt;
  return Metres(metres);
}

std::optional<Projection::Area> stated_area(const ProjContext& context, const PJ* crs) {
  double west = 0;
  double south = 0;
  double east = 0;
  double north = 0;
  constexpr double kNone = -1000;  // PROJ's word for an unknown bound
  if (proj_get_area_of_use(context.get(), crs, &west, &south, &east, &north, nullptr) == 0 || west == kNone) {
    return std::nullopt;
  }
  return Projection::Area{{Longitude{west}, Latitude{south}}, {Longitude{east}, Latitude{north}}};
}

}  // namespace

struct Projection::Impl {
  ProjContext context;  // outlives the PROJ objects below
  PjPtr to_wgs84;       // from the system's own units, x east and y north, to degrees
  PjPtr from_base;      // from the geographic system below to the system's own units; null for a geographic system
  bool geographic{};
  double metres_per_unit = 1.0;
  double radians_per_base_unit{};
  double semi_major_m{};
  double eccentricity_squared{};
  std::string name;
  std::string definition;
  std::optional<Metres> accuracy;
  std::optional<Area> area;

  [[nodiscard]] double radius_east_west(double lat) const {
    const double s = std::sin(lat);
    return semi_major_m / std::sqrt(1.0 - eccentricity_squared * s * s);
  }
  [[nodiscard]] double radius_north_south(double lat) const {
    const double s = std::sin(lat);
    return semi_major_m * (1.0 - eccentricity_squared) / std::pow(1.0 - eccentricity_squared * s * s, 1.5);
  }

  [[nodiscard]] Scale scale_in_degrees(double lat) const;
  [[nodiscard]] Scale scale_in_metres(XY own) const;
};

Projection::Projection(std::shared_ptr<const Impl> impl) : impl_(std::move(impl)) {}

Projection Projection::from_text(const std::string& text) { return made(text, std::nullopt); }

Projection Projection::near(XY place) const {
  const LonLat where = to_lonlat(place);
  if (!std::isfinite(where.lon.degrees) || !(std::abs(where.lat.degrees) <= 90.0)) return *this;
  return made(impl_->definition, LonLat{Longitude{std::remainder(where.lon.degrees, 360.0)}, where.lat});
}

Projection Projection::made(const std::string& text, const std::optional<LonLat>& place) {
  auto impl = std::make_shared<Impl>();
  HorizontalCrs read = read_crs(impl->context, text);
  const PjPtr wgs84(proj_create(impl->context.get(), "EPSG:4326"));
  if (wgs84 != nullptr) impl->to_wgs84 = best_operation(impl->context, read.crs.get(), wgs84.get(), place);
  if (!read.geographic) impl->from_base = best_operation(impl->context, read.base.get(), read.bare.get());
  if (impl->to_wgs84 == nullptr || (!read.geographic && impl->from_base == nullptr)) {
    throw InputError(
        fmt::format("coordinate system \"{}\": PROJ knows no way from it to WGS 84 ({}); reproject the "
                    "data to WGS 84 or to a UTM zone on it",
                    read.name, impl->context.message()));
  }
  impl->accuracy = stated_accuracy(impl->context, impl->to_wgs84.get());
  impl->area = stated_area(impl->context, read.bare.get());
  impl->geographic = read.geographic;
  impl->metres_per_unit = read.metres_per_unit;
  impl->radians_per_base_unit = read.radians_per_base_unit;
  impl->semi_major_m = read.semi_major_m;
  impl->eccentricity_squared = read.eccentricity_squared;
  impl->name = std::move(read.name);
  impl->definition = std::move(read.definition);
  return Projection(std::move(impl));
}

Projection Projection::transverse_mercator(LonLat centre) {
  return from_text(fmt::format("+proj=tmerc +lat_0={} +lon_0={} +k=1 +x_0=0 +y_0=0 +datum=WGS84 +units=m +type=crs",
                               centre.lat.degrees, centre.lon.degrees));
}

Projection Projection::geographic() { return from_text("EPSG:4326"); }

LonLat Projection::to_lonlat(XY place) const {
  const double unit = impl_->metres_per_unit;
  const XY degrees = transformed(impl_->to_wgs84.get(), PJ_FWD, place.x / unit, place.y / unit);
  return {.lon = Longitude{degrees.x}, .lat = Latitude{degrees.y}};
}

XY Projection::from_lonlat(LonLat place) const {
  return transformed(impl_->to_wgs84.get(), PJ_INV, place.lon.degrees, place.lat.degrees) * impl_->metres_per_unit;
}

Projection::Scale Projection::Impl::scale_in_degrees(double lat) const {
  return {.parallel = 1.0 / (radius_east_west(lat) * std::cos(lat) * kDegree),
          .meridian = 1.0 / (radius_north_south(lat) * kDegree),
          .conformal = false,
          .convergence = Degrees(0.0)};
}

// Central differences of the projection itself, with the radii of its own ellipsoid. PROJ's proj_factors would serve
// for most systems, but up to 9.1 it is off for those in feet, with swapped axes or off Greenwich. The step of 64 m
// leaves a relative error near 1e-10.
Projection::Scale Projection::Impl::scale_in_metres(XY own) const {
  constexpr double kStep = 1e-5;
  const XY base = transformed(from_base.get(), PJ_INV, own.x, own.y);
  const double unit = radians_per_base_unit;
  const auto at = [&](double east, double north) {
    return transformed(from_base.get(), PJ_FWD, base.x + east / unit, base.y + north / unit) * metres_per_unit;
  };
  const double lat = base.y * unit;
  const XY by_lon = (at(kStep, 0.0) - at(-kStep, 0.0)) * (0.5 / kStep / (radius_east_west(lat) * std::cos(lat)));
  const XY by_lat = (at(0.0, kStep) - at(0.0, -kStep)) * (0.5 / kStep / radius_north_south(lat));
  constexpr double kSame = 1e-6;
  const double parallel = std::hypot(by_lon.x, by_lon.y);
  const double meridian = std::hypot(by_lat.x, by_lat.y);
  const double shear = dot(by_lon, by_lat) / (parallel * meridian);
  return {.parallel = parallel,
          .meridian = meridian,
          .conformal = std::abs(parallel / meridian - 1.0) <= kSame && std::abs(shear) <= kSame,
          .convergence = Degrees(-std::atan2(by_lat.x, by_lat.y) / kDegree)};
}

Projection::Scale Projection::scale_at(LonLat place) const {
  const XY own = from_lonlat(place) * (1.0 / impl_->metres_per_unit);
  return impl_->geographic ? impl_->scale_in_degrees(own.y * kDegree) : impl_->scale_in_metres(own);
}

bool Projection::is_geographic() const { return impl_->geographic; }
double Projection::metres_per_unit() const { return impl_->metres_per_unit; }
const std::string& Projection::name() const { return impl_->name; }
const std::string& Projection::definition() const { return impl_->definition; }
std::optional<Metres> Projection::accuracy() const { return impl_->accuracy; }
std::optional<Projection::Area> Projection::area_of_use() const { return impl_->area; }

bool Projection::Area::holds(LonLat place) const {
  const double lon = place.lon.degrees;
  const bool across = south_west.lon.degrees > north_east.lon.degrees;
  const bool after = lon >= south_west.lon.degrees;
  const bool before = lon <= north_east.lon.degrees;
  return (across ? after || before : after && before) && place.lat.degrees >= south_west.lat.degrees &&
         place.lat.degrees <= north_east.lat.degrees;
}

Projection Projection::clone() const {
  auto copy = std::make_shared<Impl>();
  PJ_CONTEXT* context = copy->context.get();
  copy->to_wgs84.reset(proj_clone(context, impl_->to_wgs84.get()));
  if (impl_->from_base != nullptr) copy->from_base.reset(proj_clone(context, impl_->from_base.get()));
  copy->geographic = impl_->geographic;
  copy->metres_per_unit = impl_->metres_per_unit;
  copy->radians_per_base_unit = impl_->radians_per_base_unit;
  copy->semi_major_m = impl_->semi_major_m;
  copy->eccentricity_squared = impl_->eccentricity_squared;
  copy->name = impl_->name;
  copy->definition = impl_->definition;
  copy->accuracy = impl_->accuracy;
  copy->area = impl_->area;
  return Projection(std::move(copy));
}

Degrees true_bearing(const Projection& projection, XY from, XY to) {
  return geodesic(projection.to_lonlat(from), projection.to_lonlat(to)).bearing;
}

XY offset(XY from, Degrees grid_direction, Metres distance) {
  const double angle = grid_direction.value() * kDegree;
  return {from.x + distance.value() * std::sin(angle), from.y + distance.value() * std::cos(angle)};
}

}  // namespace castplan
