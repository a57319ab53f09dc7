// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/ground_shape.hpp"

#include <algorithm>
#include <cmath>

#include "write/meridian.hpp"

namespace castplan {
namespace {

MicroPlace rounded(XY degrees) {
  return {static_cast<std::int64_t>(std::llround(degrees.x * 1e6)),
          static_cast<std::int64_t>(std::llround(degrees.y * 1e6))};
}

MicroPath rounded(const Line& path) {
  MicroPath out;
  for (const XY place : path) {
    const MicroPlace next = rounded(place);
    if (out.empty() || out.back() != next) out.push_back(next);
  }
  return out;
}

// Twice the area, positive for an anticlockwise ring. Offsets from the first place keep the products small and exact.
std::int64_t doubled_area(const MicroPath& ring) {
  std::int64_t sum = 0;
  for (std::size_t at = 1; at < ring.size(); ++at) {
    const MicroPlace a{ring[at - 1].lon - ring.front().lon, ring[at - 1].lat - ring.front().lat};
    const MicroPlace b{ring[at].lon - ring.front().lon, ring[at].lat - ring.front().lat};
    sum += a.lon * b.lat - b.lon * a.lat;
  }
  return sum;
}

// A closed, rounded ring in the order asked for; empty when it has collapsed.
MicroPath printed_ring(const Ring& ring, bool anticlockwise) {
  MicroPath out = rounded(ring);
  if (!out.empty() && out.front() != out.back()) out.push_back(out.front());
  const std::int64_t turned = out.size() < 4 ? 0 : doubled_area(out);
  if (turned == 0) return {};
  if ((turned > 0) != anticlockwise) std::reverse(out.begin(), out.end());
  return out;
}

Ring closed_ring(Ring ring, bool anticlockwise) {
  if (!ring.empty() && ring.front() != ring.back()) ring.push_back(ring.front());
  if ((signed_area(ring).value() > 0.0) != anticlockwise) std::reverse(ring.begin(), ring.end());
  return ring;
}

// The path in degrees; longitudes run on past 180 where it crosses that meridian.
class ToDegrees {
 public:
  explicit ToDegrees(const Projection& projection) : projection_(projection) {}
  Line operator()(const Line& path) {
    Line out;
    out.reserve(path.size());
    for (const XY place : path) {
      const LonLat at = projection_.to_lonlat(place);
      out.push_back({at.lon.degrees, at.lat.degrees});
    }
    if (out.empty()) return out;
    if (!near_) near_ = out.front().x;
    return unwrapped(std::move(out), *near_);
  }

 private:
  const Projection& projection_;
  std::optional<double> near_;  // of the whole shape, so that its parts stay together
};

std::vector<MicroPath> printed_lines(const Lines& lines, ToDegrees to_degrees) {
  Lines degrees;
  for (const Line& line : lines) degrees.push_back(to_degrees(line));
  std::vector<MicroPath> out;
  for (const Line& line : cut_at_180(degrees)) {
    MicroPath path = rounded(line);
    if (path.size() >= 2) out.push_back(std::move(path));
  }
  return out;
}

std::vector<MicroPolygon> printed_polygons(const Polygons& polygons, ToDegrees to_degrees) {
  Polygons degrees;
  for (const Polygon& polygon : polygons) {
    Polygon next{closed_ring(to_degrees(polygon.outer), true), {}};
    for (const Ring& hole : polygon.holes) next.holes.push_back(closed_ring(to_degrees(hole), false));
    degrees.push_back(std::move(next));
  }
  std::vector<MicroPolygon> out;
  for (const Polygon& polygon : cut_at_180(degrees)) {
    MicroPolygon next{printed_ring(polygon.outer, true), {}};
    if (next.outer.empty()) continue;
    for (const Ring& hole : polygon.holes) {
      MicroPath ring = printed_ring(hole, false);
      if (!ring.empty()) next.holes.push_back(std::move(ring));
    }
    out.push_back(std::move(next));
  }
  return out;
}

void write_path(JsonText& json, const MicroPath& path) {
  json.begin_array();
  for (const MicroPlace place : path) write_place(json, place);
  json.end_array();
}

void write_polygon(JsonText& json, const MicroPolygon& polygon) {
  json.begin_array();
  write_path(json, polygon.outer);
  for (const MicroPath& hole : polygon.holes) write_path(json, hole);
  json.end_array();
}

// "Type" with the one part, or "MultiType" with the list of them.
template <class Part, class WritePart>
void write_parts(JsonText& json, std::string_view type, const std::vector<Part>& parts, WritePart write_part) {
  const bool single = parts.size() == 1;
  json.begin_object().key("type").text(single ? std::string(type) : "Multi" + std::string(type)).key("coordinates");
  if (!single) json.begin_array();
  for (const Part& part : parts) write_part(json, part);
  if (!single) json.end_array();
  json.end_object();
}

}  // namespace

MicroPlace printed(LonLat place) { return rounded(XY{place.lon.degrees, place.lat.degrees}); }

LonLat lonlat(MicroPlace place) {
  return {Longitude{static_cast<double>(place.lon) / 1e6}, Latitude{static_cast<double>(place.lat) / 1e6}};
}

GroundShape ground_shape(const Geometry& geometry, const Projection& projection) {
  if (const auto* points = std::get_if<Points>(&geometry)) {
    MicroPath out;
    for (const XY point : *points) out.push_back(printed(projection.to_lonlat(point)));
    return out;
  }
  const ToDegrees to_degrees(projection);
  if (const auto* lines = std::get_if<Lines>(&geometry)) return printed_lines(*lines, to_degrees);
  return printed_polygons(std::get<Polygons>(geometry), to_degrees);
}

bool is_empty(const GroundShape& shape) {
  return std::visit([](const auto& parts) { return parts.empty(); }, shape);
}

void write_place(JsonText& json, MicroPlace place) {
  json.begin_array();
  json.number(static_cast<double>(place.lon) / 1e6, 6).number(static_cast<double>(place.lat) / 1e6, 6);
  json.end_array();
}

void write_geometry(JsonText& json, const GroundShape& shape) {
  if (is_empty(shape)) {
    json.null();
  } else if (const auto* points = std::get_if<MicroPath>(&shape)) {
    write_parts(json, "Point", *points, write_place);
  } else if (const auto* lines = std::get_if<std::vector<MicroPath>>(&shape)) {
    write_parts(json, "LineString", *lines, write_path);
  } else {
    write_parts(json, "Polygon", std::get<std::vector<MicroPolygon>>(shape), write_polygon);
  }
}

void Extent::Range::add(std::int64_t value) {
  low = low ? std::min(*low, value) : value;
  high = high ? std::max(*high, value) : value;
}

void Extent::add(MicroPlace place) {
  (place.lon >= 0 ? east_ : west_).add(place.lon);
  lat_.add(place.lat);
}

void Extent::add(const GroundShape& shape) {
  if (const auto* points = std::get_if<MicroPath>(&shape)) {
    for (const MicroPlace place : *points) add(place);
  } else if (const auto* lines = std::get_if<std::vector<MicroPath>>(&shape)) {
    for (const MicroPath& line : *lines) {
      for (const MicroPlace place : line) add(place);
    }
  } else {
    for (const MicroPolygon& polygon : std::get<std::vector<MicroPolygon>>(shape)) {
      for (const MicroPlace place : polygon.outer) add(place);
    }
  }
}

std::optional<Extent::Box> Extent::box() const {
  if (!lat_.low) return std::nullopt;
  std::int64_t west = west_.low ? *west_.low : *east_.low;
  std::int64_t east = east_.high ? *east_.high : *west_.high;
  if (east - west > 180'000'000) {
    west = *east_.low;
    east = *west_.high;
  }
  return Box{{west, *lat_.low}, {east, *lat_.high}};
}

void write_bbox(JsonText& json, const Extent& extent) {
  const auto box = extent.box();
  if (!box) return;
  json.key("bbox").begin_array();
  for (const MicroPlace corner : {box->south_west, box->north_east}) {
    json.number(static_cast<double>(corner.lon) / 1e6, 6).number(static_cast<double>(corner.lat) / 1e6, 6);
  }
  json.end_array();
}

}  // namespace castplan
