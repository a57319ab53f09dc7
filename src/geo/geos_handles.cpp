// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "geo/geos_handles.hpp"

#include <algorithm>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

void keep_message(const char* message, void* kept) { *static_cast<std::string*>(kept) = message; }

Ring turned(Ring ring, bool anticlockwise) {
  if ((signed_area(ring).value() > 0.0) != anticlockwise) std::reverse(ring.begin(), ring.end());
  return ring;
}

}  // namespace

Geos::Geos() : handle_(GEOS_init_r()) { GEOSContext_setErrorMessageHandler_r(handle_, keep_message, &message_); }
Geos::~Geos() { GEOS_finish_r(handle_); }

void Geos::fail() const {
  throw InputError("plane geometry: " + (message_.empty() ? "GEOS gave no reason" : message_) +
                   "; repair the shapes in the input (closed rings, finite coordinates)");
}

Geos::Ptr Geos::own(GEOSGeometry* geometry) const {
  if (geometry == nullptr) fail();
  return {geometry, Destroyer{handle_}};
}

GEOSCoordSequence* Geos::sequence(const Line& line) const {
  std::vector<double> x(line.size());
  std::vector<double> y(line.size());
  std::transform(line.begin(), line.end(), x.begin(), [](XY place) { return place.x; });
  std::transform(line.begin(), line.end(), y.begin(), [](XY place) { return place.y; });
  GEOSCoordSequence* made =
      GEOSCoordSeq_copyFromArrays_r(handle_, x.data(), y.data(), nullptr, nullptr, static_cast<unsigned>(line.size()));
  if (made == nullptr) fail();
  return made;
}

Geos::Ptr Geos::point(XY place) const { return own(GEOSGeom_createPointFromXY_r(handle_, place.x, place.y)); }

Geos::Ptr Geos::line(const Line& line) const {
  return line.size() == 1 ? point(line[0]) : own(GEOSGeom_createLineString_r(handle_, sequence(line)));
}

Geos::Ptr Geos::ring(const Ring& ring) const { return own(GEOSGeom_createLinearRing_r(handle_, sequence(ring))); }

Geos::Ptr Geos::polygon(const Polygon& polygon) const {
  Ptr outer = ring(polygon.outer);
  std::vector<Ptr> holes;
  for (const Ring& hole : polygon.holes) holes.push_back(ring(hole));
  // GEOS takes the rings over, even when it fails
  std::vector<GEOSGeometry*> given;
  for (Ptr& hole : holes) given.push_back(hole.release());
  return own(GEOSGeom_createPolygon_r(handle_, outer.release(), given.data(), static_cast<unsigned>(given.size())));
}

Geos::Ptr Geos::collection(int type, std::vector<Ptr> parts) const {
  std::vector<GEOSGeometry*> given;
  for (Ptr& part : parts) given.push_back(part.release());
  return own(GEOSGeom_createCollection_r(handle_, type, given.data(), static_cast<unsigned>(given.size())));
}

Geos::Ptr Geos::geometry(const Geometry& geometry) const {
  std::vector<Ptr> parts;
  int type = GEOS_MULTIPOINT;
  if (const auto* points = std::get_if<Points>(&geometry)) {
    for (const XY place : *points) parts.push_back(point(place));
  } else if (const auto* lines = std::get_if<Lines>(&geometry)) {
    type = GEOS_MULTILINESTRING;
    for (const Line& part : *lines) {
      if (part.size() == 1) type = GEOS_GEOMETRYCOLLECTION;
      if (!part.empty()) parts.push_back(line(part));
    }
  } else {
    type = GEOS_MULTIPOLYGON;
    for (const Polygon& part : std::get<Polygons>(geometry)) {
      if (!part.outer.empty()) parts.push_back(polygon(part));
    }
  }
  return collection(type, std::move(parts));
}

Line Geos::points_of(const GEOSGeometry* line) const {
  const GEOSCoordSequence* made = GEOSGeom_getCoordSeq_r(handle_, line);
  unsigned count = 0;
  if (made == nullptr || GEOSCoordSeq_getSize_r(handle_, made, &count) == 0) fail();
  std::vector<double> x(count);
  std::vector<double> y(count);
  if (count > 0 && GEOSCoordSeq_copyToArrays_r(handle_, made, x.data(), y.data(), nullptr, nullptr) == 0) fail();
  Line points(count);
  for (unsigned i = 0; i < count; ++i) points[i] = {x[i], y[i]};
  return points;
}

Polygon Geos::polygon_of(const GEOSGeometry* polygon) const {
  Polygon ours;
  ours.outer = turned(points_of(GEOSGetExteriorRing_r(handle_, polygon)), true);
  const int holes = GEOSGetNumInteriorRings_r(handle_, polygon);
  for (int i = 0; i < holes; ++i) {
    ours.holes.push_back(turned(points_of(GEOSGetInteriorRingN_r(handle_, polygon, i)), false));
  }
  return ours;
}

Polygons Geos::polygons_of(const GEOSGeometry* geometry) const {
  if (GEOSisEmpty_r(handle_, geometry) != 0) return {};
  const int type = GEOSGeomTypeId_r(handle_, geometry);
  if (type == GEOS_POLYGON) return {polygon_of(geometry)};
  if (type != GEOS_MULTIPOLYGON && type != GEOS_GEOMETRYCOLLECTION) return {};
  Polygons all;
  const int parts = GEOSGetNumGeometries_r(handle_, geometry);
  for (int i = 0; i < parts; ++i) {
    Polygons inner = polygons_of(GEOSGetGeometryN_r(handle_, geometry, i));
    std::move(inner.begin(), inner.end(), std::back_inserter(all));
  }
  return all;
}

bool Geos::is_valid(const GEOSGeometry* geometry) const { return GEOSisValid_r(handle_, geometry) == 1; }

}  // namespace castplan
