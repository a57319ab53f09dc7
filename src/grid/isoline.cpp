// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/isoline.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <tuple>
#include <utility>

#include "grid/trace.hpp"

namespace castplan {
namespace {

using Numbers = std::vector<std::int32_t>;

bool north_west_of(XY a, XY b) { return std::tuple(-a.y, a.x) < std::tuple(-b.y, b.x); }

/// Takes the crossings from one to the next off the list, to the end or once around, without repeated points.
/// A line that comes back has its first point at the end again. members: gets the crossings' numbers where not null.
Line take_line(std::vector<Crossing>& crossings, std::int32_t start, Numbers* members) {
  Line line;
  std::int32_t at = start;
  while (at >= 0) {
    Crossing& crossing = crossings[static_cast<std::size_t>(at)];
    if (line.empty() || !(line.back() == crossing.at)) line.push_back(crossing.at);
    if (members != nullptr) members->push_back(at);
    at = std::exchange(crossing.next, -1);
    if (at == start) {
      if (!(line.back() == line.front())) line.push_back(line.front());
      break;
    }
  }
  return line;
}

/// Turns a closed line so that it begins at its northernmost vertex (the westernmost of equals); keeps the direction.
void begin_at_north(Line& ring) {
  ring.pop_back();
  std::rotate(ring.begin(), std::min_element(ring.begin(), ring.end(), north_west_of), ring.end());
  ring.push_back(ring.front());
}

/// Positive for an anticlockwise ring; measured from its first point, so that far-off coordinates lose no digits.
double enclosed(const Ring& ring) {
  double twice = 0.0;
  for (std::size_t i = 1; i < ring.size(); ++i) twice += cross(ring[i - 1] - ring.front(), ring[i] - ring.front());
  return twice / 2.0;
}

struct TracedRing {
  Ring ring;
  bool hole = false;
  std::int32_t corner = -1;  ///< the westernmost of its northernmost crossings between cells side by side
  std::int32_t outer = -1;   ///< of a hole: the ring that it lies in
};

bool stands_before(const Crossing& a, const Crossing& b) {
  return std::tuple(a.row, a.at.x) < std::tuple(b.row, b.at.x);
}

/// Finds the ring around each hole. West of a hole's corner, in the same row of cells, lies an unbroken stretch above
/// the level; the crossing at its western end belongs to the outer ring, or to a hole in the same outer ring whose
/// own corner comes earlier.
void find_outers(const std::vector<Crossing>& crossings, const Numbers& ring_of, std::vector<TracedRing>& rings) {
  std::vector<TracedRing*> holes;
  for (TracedRing& ring : rings) {
    if (ring.hole) holes.push_back(&ring);
  }
  const auto of = [&](std::int32_t i) -> const Crossing& { return crossings[static_cast<std::size_t>(i)]; };
  std::sort(holes.begin(), holes.end(),
            [&](const TracedRing* a, const TracedRing* b) { return stands_before(of(a->corner), of(b->corner)); });
  for (TracedRing* hole : holes) {
    std::int32_t west = hole->corner - 1;
    while (west >= 0 && of(west).row != of(hole->corner).row) --west;
    assert(west >= 0);
    const std::int32_t number = ring_of[static_cast<std::size_t>(west)];
    const TracedRing& found = rings[static_cast<std::size_t>(number)];
    hole->outer = found.hole ? found.outer : number;
  }
}

std::vector<TracedRing> take_rings(std::vector<Crossing> crossings) {
  std::vector<TracedRing> rings;
  Numbers ring_of(crossings.size());
  Numbers members;
  for (std::size_t i = 0; i < crossings.size(); ++i) {
    if (crossings[i].next < 0) continue;
    members.clear();
    TracedRing traced{.ring = take_line(crossings, static_cast<std::int32_t>(i), &members)};
    for (const std::int32_t member : members) {
      ring_of[static_cast<std::size_t>(member)] = static_cast<std::int32_t>(rings.size());
      const Crossing& crossing = crossings[static_cast<std::size_t>(member)];
      if (crossing.row < 0) continue;
      if (traced.corner < 0 || stands_before(crossing, crossings[static_cast<std::size_t>(traced.corner)])) {
        traced.corner = member;
      }
    }
    traced.hole = enclosed(traced.ring) < 0.0;
    begin_at_north(traced.ring);
    rings.push_back(std::move(traced));
  }
  find_outers(crossings, ring_of, rings);
  return rings;
}

}  // namespace

FieldRows FieldRows::of(const Grid<Metres32>& field) {
  return {field.frame(), [&field](int row, std::vector<Metres32>&) { return field.row(row).data(); }};
}

Lines isolines(const Grid<Metres32>& field, float level) { return isolines(FieldRows::of(field), level); }

Lines isolines(const FieldRows& field, float level) {
  std::vector<Crossing> crossings = trace(field, level, Unknown::left_out);
  const double least_area = 1e-9 * field.frame.cell_area().value();
  Lines lines;
  for (std::size_t i = 0; i < crossings.size(); ++i) {
    if (crossings[i].led_to || crossings[i].next < 0) continue;
    Line line = take_line(crossings, static_cast<std::int32_t>(i), nullptr);
    if (line.size() >= 2) lines.push_back(std::move(line));
  }
  for (std::size_t i = 0; i < crossings.size(); ++i) {
    if (crossings[i].next < 0) continue;
    Line ring = take_line(crossings, static_cast<std::int32_t>(i), nullptr);
    // Around single cells, or a row of them, that equal the level: out and back on the same points.
    if (ring.size() < 4 || std::abs(enclosed(ring)) < least_area) continue;
    begin_at_north(ring);
    lines.push_back(std::move(ring));
  }
  std::stable_sort(lines.begin(), lines.end(),
                   [](const Line& a, const Line& b) { return north_west_of(a.front(), b.front()); });
  return lines;
}

Polygons area_above(const Grid<Metres32>& field, float level) { return area_above(FieldRows::of(field), level); }

Polygons area_above(const FieldRows& field, float level) {
  std::vector<TracedRing> rings = take_rings(trace(field, level, Unknown::below));
  std::vector<std::size_t> order(rings.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return north_west_of(rings[a].ring.front(), rings[b].ring.front());
  });
  Polygons polygons;
  std::vector<std::size_t> polygon_of(rings.size());
  for (const std::size_t i : order) {
    if (rings[i].hole) continue;
    polygon_of[i] = polygons.size();
    polygons.push_back({.outer = std::move(rings[i].ring), .holes = {}});
  }
  for (const std::size_t i : order) {
    if (!rings[i].hole) continue;
    polygons[polygon_of[static_cast<std::size_t>(rings[i].outer)]].holes.push_back(std::move(rings[i].ring));
  }
  return polygons;
}

}  // namespace castplan
