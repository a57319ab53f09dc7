// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "castplan/geo/coordinate.hpp"

namespace castplan {

/// A coordinate reference system and its way to WGS 84. Coordinates are always metres east and north, whatever the
/// system's own unit (a grid in US survey feet is scaled, not resampled), except for a geographic system, whose XY are
/// degrees east and north. The way to WGS 84 is one operation for all places (the one that PROJ ranks first without a
/// network, among those that keep the datum if there are any; `near` takes the one for a place), and NaN comes out
/// where it has no answer. Copies share
/// it, and even the const functions change its inner state: two threads must not share one, each takes its `clone`.
class Projection {
 public:
  /// text: WKT, a PROJ string or an authority code such as EPSG:32615; of a compound system the horizontal part. Throws
  /// InputError for anything else: local, geocentric and vertical systems, axes that run west, grads.
  static Projection from_text(const std::string& text);
  /// Transverse Mercator on a meridian and parallel, scale 1, WGS 84: true to 2e-6 within 10 km of the centre.
  static Projection transverse_mercator(LonLat centre);
  static Projection geographic();

  /// The same system, with the way to WGS 84 that PROJ ranks first for data about a place, in the system's own
  /// coordinates: an old datum is shifted otherwise in each part of a continent. Unchanged where the place has no
  /// answer.
  [[nodiscard]] Projection near(XY place) const;

  [[nodiscard]] LonLat to_lonlat(XY place) const;
  [[nodiscard]] XY from_lonlat(LonLat place) const;

  /// Scale on the plane over scale on the ground, at a place: {east-west, north-south}; for a geographic system degrees
  /// a metre. By differences of the projection on its own ellipsoid, relative error 1e-9; needs a place off the poles.
  /// Source: the scale factors k and h of Snyder (1987), USGS Prof. Paper 1395, chapter 4.
  struct Scale {
    double parallel;
    double meridian;
    bool conformal;       ///< equal in all directions to 1e-6
    Degrees convergence;  ///< true bearing of grid north: true bearing = grid bearing + convergence
  };
  [[nodiscard]] Scale scale_at(LonLat place) const;

  [[nodiscard]] bool is_geographic() const;
  [[nodiscard]] double metres_per_unit() const;         ///< 1 for metres and degrees, 0.3048006... for US survey feet
  [[nodiscard]] const std::string& name() const;        ///< for people
  [[nodiscard]] const std::string& definition() const;  ///< the text that rebuilds it (WKT or PROJ string)
  /// How far the way to WGS 84 may be off, as PROJ states it (at most, in the area of use); nullopt where it states
  /// nothing, as for a datum that is only roughly known.
  [[nodiscard]] std::optional<Metres> accuracy() const;
  /// Where the system is meant to be used, where its definition says; west may exceed east across 180 degrees.
  struct Area {
    LonLat south_west;
    LonLat north_east;
    [[nodiscard]] bool holds(LonLat place) const;
  };
  [[nodiscard]] std::optional<Area> area_of_use() const;
  /// An independent copy for another thread.
  [[nodiscard]] Projection clone() const;

 private:
  struct Impl;
  explicit Projection(std::shared_ptr<const Impl> impl);
  static Projection made(const std::string& text, const std::optional<LonLat>& place);
  std::shared_ptr<const Impl> impl_;
};

/// Direction from one place to another: degrees clockwise from TRUE north, [0, 360), along the geodesic.
Degrees true_bearing(const Projection& projection, XY from, XY to);

/// The place a distance and a grid direction away on the plane.
XY offset(XY from, Degrees grid_direction, Metres distance);

}  // namespace castplan
