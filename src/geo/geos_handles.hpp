// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#define GEOS_USE_ONLY_R_API
#include <geos_c.h>

#include <memory>
#include <string>
#include <vector>

#include "castplan/geo/shape.hpp"

namespace castplan {

/// A GEOS context, and shapes of ours turned into GEOS geometries and back. One a call or a prepared shape: cheap, and
/// no state is shared between threads. Whatever GEOS refuses becomes an InputError with its words.
class Geos {
 public:
  struct Destroyer {
    GEOSContextHandle_t handle;
    void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(handle, geometry); }
  };
  using Ptr = std::unique_ptr<GEOSGeometry, Destroyer>;

  Geos();
  ~Geos();
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;

  [[nodiscard]] GEOSContextHandle_t handle() const { return handle_; }

  /// Takes what a GEOS function returned; throws if that is null.
  [[nodiscard]] Ptr own(GEOSGeometry* geometry) const;
  [[noreturn]] void fail() const;

  [[nodiscard]] Ptr point(XY place) const;
  [[nodiscard]] Ptr line(const Line& line) const;  ///< a point if the line has only one
  [[nodiscard]] Ptr polygon(const Polygon& polygon) const;
  /// Multi geometry; empty lines and polygons without an outer ring are left out.
  [[nodiscard]] Ptr geometry(const Geometry& geometry) const;
  [[nodiscard]] Ptr collection(int type, std::vector<Ptr> parts) const;

  [[nodiscard]] Line points_of(const GEOSGeometry* line) const;
  /// All polygons in a geometry, however nested; outer rings anticlockwise, holes clockwise.
  [[nodiscard]] Polygons polygons_of(const GEOSGeometry* geometry) const;

  [[nodiscard]] bool is_valid(const GEOSGeometry* geometry) const;

 private:
  [[nodiscard]] GEOSCoordSequence* sequence(const Line& line) const;
  [[nodiscard]] Ptr ring(const Ring& ring) const;
  [[nodiscard]] Polygon polygon_of(const GEOSGeometry* polygon) const;

  GEOSContextHandle_t handle_;
  std::string message_;
};

}  // namespace castplan
