// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/svg_path.hpp"

#include <fmt/format.h>

#include <cmath>
#include <iterator>

#include "castplan/geo/planar.hpp"

namespace castplan {
namespace {

struct Step {
  long long x, y;
  bool operator==(const Step&) const = default;
};

Step drawn(const MapView& view, XY place) {
  return {std::llround((place.x - view.box.low.x) / view.unit), std::llround((view.box.high.y - place.y) / view.unit)};
}

}  // namespace

std::string svg_path(const MapView& view, const Line& line) {
  if (line.size() < 2) return {};
  const bool closed = line.size() > 3 && line.front() == line.back();
  const std::size_t count = closed ? line.size() - 1 : line.size();
  const Step first = drawn(view, line.front());
  Step last = first;
  std::string out;
  for (std::size_t i = 1; i < count; ++i) {
    const Step here = drawn(view, line[i]);
    if (here == last) continue;
    fmt::format_to(std::back_inserter(out), "{}{} {}", out.empty() ? "l" : " ", here.x - last.x, here.y - last.y);
    last = here;
  }
  if (out.empty()) return {};
  return fmt::format("M{} {}{}{}", first.x, first.y, out, closed ? "z" : "");
}

std::string svg_path(const MapView& view, const Polygons& polygons) {
  std::string out;
  for (const Polygon& polygon : polygons) {
    out += svg_path(view, polygon.outer);
    for (const Ring& hole : polygon.holes) out += svg_path(view, hole);
  }
  return out;
}

std::string svg_path(const MapView& view, const Geometry& geometry) {
  if (const auto* polygons = std::get_if<Polygons>(&geometry)) {
    return svg_path(view, simplified(*polygons, view.pixel()));
  }
  std::string out;
  if (const auto* lines = std::get_if<Lines>(&geometry)) {
    for (const Line& line : *lines) out += svg_path(view, simplified(line, view.pixel()));
  }
  return out;
}

std::string svg_dot(const MapView& view, XY place) {
  return fmt::format("M{} {}h0", std::llround((place.x - view.box.low.x) / view.unit),
                     std::llround((view.box.high.y - place.y) / view.unit));
}

}  // namespace castplan
