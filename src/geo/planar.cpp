// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/planar.hpp"

#include <algorithm>
#include <limits>

#include "castplan/geo/error.hpp"
#include "geo/geos_handles.hpp"
#include "geo/thinned.hpp"

namespace castplan {
namespace {

constexpr std::size_t kFewestInRing = 4;
/// Segments a quarter circle: a buffer falls short of the true arc by at most 0.13 % of its distance.
constexpr int kQuarterSegments = 16;

bool is_closed(const Line& line) { return line.size() > 2 && line.front() == line.back(); }

/// Never invalid or empty where the original was neither; the original then.
Polygon simplified_alone(const Geos& geos, const Polygon& polygon, Metres tolerance) {
  const Geos::Ptr original = geos.polygon(polygon);
  const Geos::Ptr fewer = geos.own(GEOSTopologyPreserveSimplify_r(geos.handle(), original.get(), tolerance.value()));
  Polygons result = geos.polygons_of(fewer.get());
  return result.size() == 1 && geos.is_valid(fewer.get()) ? std::move(result.front()) : polygon;
}

Ring turned(Ring ring, bool anticlockwise) {
  if ((signed_area(ring).value() > 0.0) != anticlockwise) std::reverse(ring.begin(), ring.end());
  return ring;
}

/// Ring by ring, without a look at the others; empty where that does not give valid polygons. It nearly always does,
/// and costs a tenth of watching over every segment.
Polygons thinned_apart(const Geos& geos, const Polygons& polygons, Metres tolerance) {
  const auto fit = [](const Ring& ring) { return ring.size() >= kFewestInRing && is_closed(ring); };
  Polygons result;
  for (const Polygon& polygon : polygons) {
    if (!fit(polygon.outer) || !std::all_of(polygon.holes.begin(), polygon.holes.end(), fit)) return {};
    Polygon& thin = result.emplace_back();
    thin.outer = turned(thinned(polygon.outer, tolerance.value()), true);
    for (const Ring& hole : polygon.holes) thin.holes.push_back(turned(thinned(hole, tolerance.value()), false));
  }
  return geos.is_valid(geos.geometry(result).get()) ? result : Polygons{};
}

/// Rings closed, and rings that enclose nothing left out.
Polygons with_whole_rings(const Polygons& polygons) {
  const auto closed = [](Ring ring) {
    if (!ring.empty() && ring.front() != ring.back()) ring.push_back(ring.front());
    return ring;
  };
  Polygons whole;
  for (const Polygon& polygon : polygons) {
    Polygon kept{.outer = closed(polygon.outer), .holes = {}};
    if (kept.outer.size() < kFewestInRing) continue;
    for (const Ring& hole : polygon.holes) {
      Ring ring = closed(hole);
      if (ring.size() >= kFewestInRing) kept.holes.push_back(std::move(ring));
    }
    whole.push_back(std::move(kept));
  }
  return whole;
}

/// Each polygon is repaired alone and the results are united: repaired together, two that overlap would leave a hole
/// where both are.
Geos::Ptr repaired(const Geos& geos, const Polygons& polygons) {
  std::vector<Geos::Ptr> parts;
  for (const Polygon& polygon : with_whole_rings(polygons)) {
    const Geos::Ptr given = geos.polygon(polygon);
    const Geos::Ptr valid = geos.own(GEOSMakeValid_r(geos.handle(), given.get()));
    // lines and points may be left over; only what has an area is kept
    for (const Polygon& part : geos.polygons_of(valid.get())) parts.push_back(geos.polygon(part));
  }
  const Geos::Ptr all = geos.collection(GEOS_MULTIPOLYGON, std::move(parts));
  return geos.own(GEOSUnaryUnion_r(geos.handle(), all.get()));
}

/// A geometry that may be asked what it covers: an even-odd rule over overlapping polygons would say "outside".
Geos::Ptr askable(const Geos& geos, const Geometry& geometry) {
  const auto* polygons = std::get_if<Polygons>(&geometry);
  if (polygons == nullptr) return geos.geometry(geometry);
  return invalidity(*polygons).empty() ? geos.geometry(geometry) : repaired(geos, *polygons);
}

}  // namespace

Line simplified(const Line& line, Metres tolerance) {
  if (line.size() < 3) return line;
  const Geos geos;
  const Geos::Ptr original = geos.line(line);
  const Geos::Ptr fewer = geos.own(GEOSSimplify_r(geos.handle(), original.get(), tolerance.value()));
  Line result = geos.points_of(fewer.get());
  // a loop smaller than the tolerance stays a loop
  if (result.size() < 2 || (is_closed(line) && result.size() < kFewestInRing)) return line;
  return result;
}

Polygons simplified(const Polygons& polygons, Metres tolerance) {
  const Geos geos;
  if (Polygons thin = thinned_apart(geos, polygons, tolerance); !thin.empty()) return thin;
  const Geos::Ptr original = geos.geometry(polygons);
  const Geos::Ptr fewer = geos.own(GEOSTopologyPreserveSimplify_r(geos.handle(), original.get(), tolerance.value()));
  Polygons result = geos.polygons_of(fewer.get());
  if (result.size() == polygons.size() && geos.is_valid(fewer.get())) return result;
  result.clear();
  for (const Polygon& polygon : polygons) {
    result.push_back(polygon.outer.empty() ? polygon : simplified_alone(geos, polygon, tolerance));
  }
  const bool spoiled = geos.is_valid(original.get()) && !geos.is_valid(geos.geometry(result).get());
  return spoiled ? polygons : result;
}

Polygons buffered(const Geometry& geometry, Metres distance) {
  const Geos geos;
  const Geos::Ptr wide =
      geos.own(GEOSBuffer_r(geos.handle(), geos.geometry(geometry).get(), distance.value(), kQuarterSegments));
  return geos.polygons_of(wide.get());
}

Lines beside(const Line& line, Metres left) {
  if (line.size() < 2) return {};
  constexpr double kNoMitre = 1.0;
  const Geos geos;
  const Geos::Ptr along = geos.own(GEOSOffsetCurve_r(geos.handle(), geos.line(line).get(), left.value(),
                                                     kQuarterSegments, GEOSBUF_JOIN_ROUND, kNoMitre));
  Lines pieces;
  for (int i = 0; i < GEOSGetNumGeometries_r(geos.handle(), along.get()); ++i) {
    const GEOSGeometry* piece = GEOSGetGeometryN_r(geos.handle(), along.get(), i);
    if (GEOSisEmpty_r(geos.handle(), piece) != 0) continue;
    if (Line places = geos.points_of(piece); places.size() > 1) pieces.push_back(std::move(places));
  }
  return pieces;
}

bool is_simple(const Line& line) {
  if (line.front() == line.back()) return false;
  const Geos geos;
  return GEOSisSimple_r(geos.handle(), geos.line(line).get()) == 1;
}

std::string invalidity(const Polygons& polygons) {
  const Geos geos;
  try {
    const Geos::Ptr given = geos.geometry(polygons);
    if (geos.is_valid(given.get())) return {};
    char* reason = GEOSisValidReason_r(geos.handle(), given.get());
    const std::string text = reason != nullptr ? reason : "not valid";
    GEOSFree_r(geos.handle(), reason);
    return text;
  } catch (const InputError& refused) {  // rings that GEOS does not even build
    return refused.what();
  }
}

Polygons made_valid(const Polygons& polygons) {
  if (invalidity(polygons).empty()) return polygons;
  const Geos geos;
  return geos.polygons_of(repaired(geos, polygons).get());
}

struct PreparedShape::Impl {
  struct PreparedDestroyer {
    GEOSContextHandle_t handle;
    void operator()(const GEOSPreparedGeometry* prepared) const { GEOSPreparedGeom_destroy_r(handle, prepared); }
  };

  explicit Impl(const Geometry& shape)
      : geometry(askable(geos, shape)),
        empty(GEOSisEmpty_r(geos.handle(), geometry.get()) != 0),
        prepared(GEOSPrepare_r(geos.handle(), geometry.get()), PreparedDestroyer{geos.handle()}) {
    if (prepared == nullptr) geos.fail();
  }

  /// GEOS answers 2 when it fails.
  [[nodiscard]] bool answer(char said) const {
    if (said != 0 && said != 1) geos.fail();
    return said == 1;
  }

  // in this order: the prepared geometry points into the geometry, and both into the context
  Geos geos;
  Geos::Ptr geometry;
  bool empty;
  std::unique_ptr<const GEOSPreparedGeometry, PreparedDestroyer> prepared;
};

PreparedShape::PreparedShape(const Geometry& geometry) : impl_(std::make_shared<Impl>(geometry)) {}

bool PreparedShape::covers(XY point) const {
  if (impl_->empty) return false;
  const Geos& geos = impl_->geos;
  return impl_->answer(GEOSPreparedCovers_r(geos.handle(), impl_->prepared.get(), geos.point(point).get()));
}

bool PreparedShape::touches(const Line& line) const {
  if (impl_->empty || line.empty()) return false;
  const Geos& geos = impl_->geos;
  return impl_->answer(GEOSPreparedIntersects_r(geos.handle(), impl_->prepared.get(), geos.line(line).get()));
}

Metres PreparedShape::distance_to(XY point) const {
  double apart = std::numeric_limits<double>::infinity();
  if (impl_->empty) return Metres(apart);
  const Geos& geos = impl_->geos;
  if (GEOSPreparedDistance_r(geos.handle(), impl_->prepared.get(), geos.point(point).get(), &apart) == 0) geos.fail();
  return Metres(apart);
}

}  // namespace castplan
