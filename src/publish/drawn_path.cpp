// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "publish/drawn_path.hpp"

#include <fmt/format.h>

#include <cmath>
#include <iterator>

#include "castplan/geo/planar.hpp"

namespace castplan {
namespace {

constexpr Metres kSimple{0.5};  // drawing units
constexpr int kSteps = 8;       // along a side of a square

struct Tenths {
  long long x, y;
  bool operator==(const Tenths&) const = default;
};
Tenths tenths(XY at) { return {std::llround(at.x * 10.0), std::llround(at.y * 10.0)}; }

std::string path_of(const Line& drawn, bool closed) {
  std::string out;
  Tenths last{};
  std::size_t count = 0;
  for (std::size_t i = 0; i + (closed ? 1 : 0) < drawn.size(); ++i) {
    const Tenths here = tenths(drawn[i]);
    if (count > 0 && here == last) continue;
    fmt::format_to(std::back_inserter(out), "{}{:g} {:g}",
                   count == 0   ? "M"
                   : count == 1 ? "L"
                                : " ",
                   static_cast<double>(here.x) / 10.0, static_cast<double>(here.y) / 10.0);
    last = here;
    ++count;
  }
  if (count < 2) return {};
  return closed ? out + "z" : out;
}

bool is_closed(const Line& line) { return line.size() > 3 && line.front() == line.back(); }

bool on_seam(XY a, XY b) { return std::abs(a.x) == 180.0 && std::abs(b.x) == 180.0; }

std::string shore_of(const MapPlane& plane, const Ring& ring) {
  std::string out;
  Line part;
  bool cut = false;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    if (i > 0 && on_seam(ring[i - 1], ring[i])) {
      out += drawn_path(plane, part);
      part.clear();
      cut = true;
    }
    part.push_back(ring[i]);
  }
  return cut ? out + drawn_path(plane, part) : drawn_path(plane, ring);
}

}  // namespace

Line drawn_line(const MapPlane& plane, const Line& degrees) {
  Line out;
  for (const XY at : degrees) out.push_back(plane.drawn(at));
  return out.size() < 2 ? out : simplified(out, kSimple);
}

std::string drawn_path(const MapPlane& plane, const Line& degrees) {
  return path_of(drawn_line(plane, degrees), is_closed(degrees));
}

std::string drawn_path(const MapPlane& plane, const Geometry& degrees) {
  std::string out;
  if (const auto* lines = std::get_if<Lines>(&degrees)) {
    for (const Line& line : *lines) out += drawn_path(plane, line);
  }
  if (const auto* polygons = std::get_if<Polygons>(&degrees)) {
    for (const Polygon& polygon : *polygons) {
      out += drawn_path(plane, polygon.outer);
      for (const Ring& hole : polygon.holes) out += drawn_path(plane, hole);
    }
  }
  return out;
}

std::string drawn_shore(const MapPlane& plane, const Polygons& degrees) {
  std::string out;
  for (const Polygon& polygon : degrees) {
    out += shore_of(plane, polygon.outer);
    for (const Ring& hole : polygon.holes) out += shore_of(plane, hole);
  }
  return out;
}

std::string drawn_square(const MapPlane& plane, const CellEdges& edges) {
  const double west = static_cast<double>(edges.west) / 1e6, east = static_cast<double>(edges.east) / 1e6;
  const double south = static_cast<double>(edges.south) / 1e6, north = static_cast<double>(edges.north) / 1e6;
  const XY corners[] = {{west, south}, {east, south}, {east, north}, {west, north}};
  Line ring;
  for (int side = 0; side < 4; ++side) {
    const XY from = corners[side], to = corners[(side + 1) % 4];
    for (int step = 0; step < kSteps; ++step) ring.push_back(plane.drawn(from + (to - from) * (step / double{kSteps})));
  }
  ring.push_back(ring.front());
  return path_of(simplified(ring, Metres(0.2)), true);
}

}  // namespace castplan
