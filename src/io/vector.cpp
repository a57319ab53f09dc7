// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/vector.hpp"

#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "castplan/geo/planar.hpp"
#include "io/gdal.hpp"
#include "io/mover.hpp"
#include "io/reference.hpp"
#include "io/vector_layer.hpp"

namespace castplan {
namespace {

/// What one feature holds, by dimension.
struct Parts {
  Points points;
  Lines lines;
  Polygons polygons;
};

Line moved(const OGRSimpleCurve& curve, const Mover& move) {
  Line line;
  line.reserve(static_cast<std::size_t>(curve.getNumPoints()));
  for (int i = 0; i < curve.getNumPoints(); ++i) line.push_back(move(curve.getX(i), curve.getY(i)));
  return line;
}

Ring turned(Ring ring, bool anticlockwise) {
  if (!ring.empty() && !(ring.front() == ring.back())) ring.push_back(ring.front());
  if ((signed_area(ring).value() > 0) != anticlockwise) std::reverse(ring.begin(), ring.end());
  return ring;
}

void add_polygon(const OGRPolygon& source, const Mover& move, Polygons& out) {
  const OGRLinearRing* outer = source.getExteriorRing();
  if (outer == nullptr || outer->getNumPoints() < 3) return;
  Polygon polygon;
  polygon.outer = turned(moved(*outer, move), true);
  for (int i = 0; i < source.getNumInteriorRings(); ++i) {
    const OGRLinearRing* hole = source.getInteriorRing(i);
    if (hole->getNumPoints() >= 3) polygon.holes.push_back(turned(moved(*hole, move), false));
  }
  out.push_back(std::move(polygon));
}

void add(const OGRGeometry& geometry, const Mover& move, Parts& out) {
  if (geometry.IsEmpty()) return;
  switch (wkbFlatten(geometry.getGeometryType())) {
    case wkbPoint: {
      const auto* point = geometry.toPoint();
      out.points.push_back(move(point->getX(), point->getY()));
      break;
    }
    case wkbLineString:
      if (geometry.toLineString()->getNumPoints() >= 2) out.lines.push_back(moved(*geometry.toLineString(), move));
      break;
    case wkbPolygon:
    case wkbTriangle:
      add_polygon(*geometry.toPolygon(), move, out.polygons);
      break;
    case wkbPolyhedralSurface:
    case wkbTIN: {
      const auto* surface = geometry.toPolyhedralSurface();
      for (int i = 0; i < surface->getNumGeometries(); ++i) add(*surface->getGeometryRef(i), move, out);
      break;
    }
    default:
      if (OGR_GT_IsSubClassOf(wkbFlatten(geometry.getGeometryType()), wkbGeometryCollection) != 0) {
        for (const auto* part : geometry.toGeometryCollection()) add(*part, move, out);
      }
  }
}

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(" \t\r\n");
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

std::map<std::string, std::string> attributes(const OGRFeature& feature) {
  std::map<std::string, std::string> out;
  for (int i = 0; i < feature.GetFieldCount(); ++i) {
    if (!feature.IsFieldSetAndNotNull(i)) continue;
    const std::string value = trimmed(feature.GetFieldAsString(i));
    if (!value.empty()) out[feature.GetFieldDefnRef(i)->GetNameRef()] = value;
  }
  return out;
}

void check_finite(const Points& places, const std::string& where) {
  for (const XY& place : places) {
    if (!std::isfinite(place.x) || !std::isfinite(place.y)) {
      throw InputError(fmt::format(
          "{}: a coordinate cannot be brought to the lake's grid; check that the stated CRS is the right one", where));
    }
  }
}

void add_records(const OGRFeature& feature, const Mover& move, const std::string& where, std::vector<Record>& out) {
  const OGRGeometry* held = feature.GetGeometryRef();
  if (held == nullptr || held->IsEmpty()) return;
  const std::unique_ptr<OGRGeometry> straight(held->getLinearGeometry());
  Parts parts;
  add(*straight, move, parts);
  if (!parts.polygons.empty() && !invalidity(parts.polygons).empty()) parts.polygons = made_valid(parts.polygons);
  const auto fields = attributes(feature);
  const auto keep = [&](auto&& shape) {
    if (shape.empty()) return;
    Geometry geometry = std::move(shape);
    check_finite(vertices(geometry), where);
    out.push_back({std::move(geometry), fields});
  };
  keep(parts.points);
  keep(parts.lines);
  keep(parts.polygons);
}

}  // namespace

OGRLayer& layer_of(GDALDataset& dataset, const VectorOptions& options) {
  const std::string shown = file_name(options.path);
  std::vector<OGRLayer*> filled;
  std::string names;
  for (int i = 0; i < dataset.GetLayerCount(); ++i) {
    OGRLayer* layer = dataset.GetLayer(i);
    const std::string name = layer->GetName();
    names += (names.empty() ? "" : ", ") + name;
    if (!options.layer.empty() && name == options.layer) return *layer;
    // GPX shows the same points twice: as lines and one by one
    const bool twin = name == "route_points" || name == "track_points";
    if (layer->GetFeatureCount() > 0 && !twin) filled.push_back(layer);
  }
  if (!options.layer.empty()) {
    throw InputError(fmt::format("{}: no layer {}; it has {}", shown, options.layer, names.empty() ? "none" : names));
  }
  if (filled.empty()) throw InputError(fmt::format("{}: holds no features", shown));
  if (filled.size() > 1) {
    throw InputError(fmt::format("{}: several layers; say which with layer = \"...\"; it has {}", shown, names));
  }
  return *filled.front();
}

Projection source_of(OGRLayer& layer, const VectorOptions& options) {
  const std::string stated = reference_text(layer.GetSpatialRef());
  if (!stated.empty() || !options.crs.empty()) {
    const Projection projection = Projection::from_text(stated.empty() ? options.crs : stated);
    OGREnvelope box;
    if (layer.GetExtent(&box) != OGRERR_NONE) return projection;
    return projection.near(XY{(box.MinX + box.MaxX) / 2, (box.MinY + box.MaxY) / 2} * projection.metres_per_unit());
  }
  throw InputError(
      fmt::format("{}: states no CRS (a shapefile without its .prj, say), so its places are not known; say which: "
                  "crs = \"EPSG:...\" beside the file's name in the lake file, or --crs EPSG:... for a bare raster's "
                  "shoreline",
                  file_name(options.path)));
}

std::vector<Record> read_vector(const VectorOptions& options, const Projection& target) {
  const std::string shown = file_name(options.path);
  const Dataset dataset = open_dataset(options.path, shown, DataKind::vector);
  const GdalMessages messages;
  OGRLayer& layer = layer_of(*static_cast<GDALDataset*>(dataset.get()), options);
  const Mover move = Mover::between(source_of(layer, options), target);
  std::vector<Record> records;
  layer.ResetReading();
  while (const OGRFeatureUniquePtr feature{layer.GetNextFeature()}) {
    add_records(*feature, move, fmt::format("{}, record {}", shown, feature->GetFID()), records);
  }
  if (messages.failed()) throw InputError(fmt::format("{}: cannot be read{}", shown, messages.in_brackets()));
  if (records.empty()) throw InputError(fmt::format("{}: has no geometry at all", shown));
  return records;
}

Polygons read_polygons(const VectorOptions& options, const Projection& target) {
  Polygons all;
  for (auto& record : read_vector(options, target)) {
    if (auto* polygons = std::get_if<Polygons>(&record.geometry)) {
      all.insert(all.end(), std::make_move_iterator(polygons->begin()), std::make_move_iterator(polygons->end()));
    }
  }
  if (all.empty()) {
    throw InputError(
        fmt::format("{}: holds no polygons (points or lines only); an area is expected", file_name(options.path)));
  }
  return invalidity(all).empty() ? all : made_valid(all);
}

}  // namespace castplan
