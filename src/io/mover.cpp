// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/mover.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

/// The middle value of x and of y: one wrong row must not condemn a file, nor save it.
XY middle_of(std::span<const XY> places) {
  std::vector<double> values;
  const auto middle = [&](double XY::*part) {
    values.clear();
    for (const XY place : places) values.push_back(place.*part);
    const auto half = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), half, values.end());
    return *half;
  };
  return {middle(&XY::x), middle(&XY::y)};
}

double reach(std::span<const XY> places, double XY::*part) {
  const auto less = [part](XY a, XY b) { return a.*part < b.*part; };
  const auto [low, high] = std::minmax_element(places.begin(), places.end(), less);
  return (*high).*part - (*low).*part;
}

/// How far the scale is from true; large where there is no such place.
double distortion(const Mover& mover, XY own) {
  const LonLat place = mover.source.to_lonlat(own * mover.unit);
  if (!std::isfinite(place.lon.degrees) || !(std::fabs(place.lat.degrees) < 89)) return 1e9;
  const auto scale = mover.source.scale_at(place);
  const double off = std::max(std::fabs(scale.parallel - 1), std::fabs(scale.meridian - 1));
  return std::isfinite(off) ? off : 1e9;
}

/// No lake lies beyond the latitude at which UTM ends.
constexpr double kFarthestLake = 84.0;

void check_degrees(XY middle, const std::string& shown, const std::string& mend) {
  if (std::fabs(middle.y) > kFarthestLake && std::fabs(middle.x) <= kFarthestLake) {
    throw InputError(
        fmt::format("{}: longitude {:.4f}, latitude {:.4f} is no lake on the earth, so the two seem to be swapped; {}",
                    shown, middle.x, middle.y, mend));
  }
  if (std::fabs(middle.x) > 360 || std::fabs(middle.y) > 90) {
    throw InputError(
        fmt::format("{}: x {:.1f}, y {:.1f} are not degrees; say the system that they are in: --crs EPSG:... (or crs = "
                    "\"EPSG:...\" beside the file in the lake file)",
                    shown, middle.x, middle.y));
  }
}

/// Metres would be given to the millimetre at most, and a lake reaches further than 2 m.
bool seem_degrees(std::span<const XY> own, XY middle) {
  if (own.size() < 2 || std::fabs(middle.x) > 180 || std::fabs(middle.y) > 90) return false;
  if (reach(own, &XY::x) >= 2 || reach(own, &XY::y) >= 2) return false;
  const auto fine = [](XY at) { return std::fabs(at.x * 1000 - std::round(at.x * 1000)) > 1e-6; };
  return 2 * std::count_if(own.begin(), own.end(), fine) > static_cast<std::ptrdiff_t>(own.size());
}

}  // namespace

Mover Mover::between(Projection source, Projection target) {
  const double unit = source.metres_per_unit();
  const bool same = source.definition() == target.definition();
  return {std::move(source), std::move(target), unit, same};
}

Projection projection_given(const std::string& crs, const std::string& shown) {
  try {
    return Projection::from_text(crs);
  } catch (const InputError& error) {
    throw InputError(fmt::format("{}: the CRS given cannot be used: {}", shown, error.what()));
  }
}

namespace {

void check_place(std::span<const XY> own, XY middle, const Mover& mover, const std::string& shown,
                 const std::string& mend) {
  if (mover.source.is_geographic()) {
    check_degrees(middle, shown, mend);
    return;
  }
  if (seem_degrees(own, middle)) {
    throw InputError(
        fmt::format("{}: x {:.4f}, y {:.4f} look like degrees, but its system is said to be {}; say --crs EPSG:4326 "
                    "(or crs = \"EPSG:4326\" beside the file in the lake file)",
                    shown, middle.x, middle.y, mover.source.name()));
  }
  // a lake lies where its system is nearly true to scale
  if (distortion(mover, middle) > 0.1 && distortion(mover, {middle.y, middle.x}) < 0.01) {
    throw InputError(fmt::format("{}: x {:.0f}, y {:.0f} lie far outside {}, and the two swapped lie inside it; {}",
                                 shown, middle.x, middle.y, mover.source.name(), mend));
  }
}

}  // namespace

Mover placed(std::span<const XY> own, Mover mover, const std::string& shown, const std::string& mend) {
  if (own.empty()) return mover;
  const XY middle = middle_of(own);
  check_place(own, middle, mover, shown, mend);
  mover.source = mover.source.near(middle * mover.unit);
  return mover;
}

}  // namespace castplan
