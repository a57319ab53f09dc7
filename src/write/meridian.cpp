// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/meridian.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace castplan {
namespace {

// A half plane of longitudes. A vertex on the meridian counts as west of it, so that every crossing has two sides.
struct Side {
  double meridian;
  bool east;
  [[nodiscard]] bool holds(XY place) const { return (place.x > meridian) == east; }
};

XY crossing(XY from, XY to, double meridian) {
  if (to.x == meridian) return to;
  const double share = (meridian - from.x) / (to.x - from.x);
  return {meridian, from.y + share * (to.y - from.y)};
}

// The stretches of a path on one side, each with its crossings as ends.
Lines stretches(const Line& path, Side side) {
  Lines out;
  bool open = false;
  for (std::size_t at = 0; at < path.size(); ++at) {
    const bool here = side.holds(path[at]);
    if (at > 0 && here != side.holds(path[at - 1])) {
      const XY cut = crossing(path[at - 1], path[at], side.meridian);
      if (here) {
        out.push_back({cut});
      } else {
        out.back().push_back(cut);
      }
      open = here;
    } else if (here && !open) {
      out.emplace_back();
      open = true;
    }
    if (here) out.back().push_back(path[at]);
  }
  return out;
}

// A ring turned so that it begins off the side; only for rings that cross the meridian.
Ring begun_outside(Ring ring, Side side) {
  ring.pop_back();
  const auto outside = std::find_if(ring.begin(), ring.end(), [&](XY place) { return !side.holds(place); });
  std::rotate(ring.begin(), outside, ring.end());
  ring.push_back(ring.front());
  return ring;
}

// With the inside to the left, a boundary that leaves the east side goes on southwards along the meridian, one that
// leaves the west side northwards, to the nearest stretch that comes back.
std::size_t next_stretch(const Lines& chains, const std::vector<bool>& taken, XY end, bool east) {
  std::size_t best = chains.size();
  double best_way = std::numeric_limits<double>::infinity();
  for (std::size_t at = 0; at < chains.size(); ++at) {
    if (taken[at]) continue;
    const double along = east ? end.y - chains[at].front().y : chains[at].front().y - end.y;
    const double way = along >= 0.0 ? along : 1000.0 - along;  // only ties at a touching vertex lie behind
    if (way < best_way) {
      best_way = way;
      best = at;
    }
  }
  return best;
}

std::vector<Ring> joined(const Lines& chains, bool east) {
  std::vector<Ring> rings;
  std::vector<std::size_t> next(chains.size());
  std::vector<bool> taken(chains.size(), false);
  for (std::size_t at = 0; at < chains.size(); ++at) {
    next[at] = next_stretch(chains, taken, chains[at].back(), east);
    taken[next[at]] = true;
  }
  std::vector<bool> used(chains.size(), false);
  for (std::size_t start = 0; start < chains.size(); ++start) {
    if (used[start]) continue;
    Ring ring;
    for (std::size_t at = start; !used[at]; at = next[at]) {
      used[at] = true;
      ring.insert(ring.end(), chains[at].begin(), chains[at].end());
    }
    ring.push_back(ring.front());
    rings.push_back(std::move(ring));
  }
  return rings;
}

Polygons part_of(const Polygon& polygon, Side side) {
  std::vector<Ring> whole;
  Lines chains;
  const auto sort_out = [&](const Ring& ring) {
    const auto inside = std::count_if(ring.begin(), ring.end(), [&](XY place) { return side.holds(place); });
    if (inside == static_cast<std::ptrdiff_t>(ring.size())) {
      whole.push_back(ring);
    } else if (inside > 0) {
      for (Line& chain : stretches(begun_outside(ring, side), side)) chains.push_back(std::move(chain));
    }
  };
  sort_out(polygon.outer);
  for (const Ring& hole : polygon.holes) sort_out(hole);

  for (Ring& ring : joined(chains, side.east)) whole.push_back(std::move(ring));
  Polygons out;
  for (const Ring& ring : whole) {
    if (signed_area(ring).value() > 0.0) out.push_back({ring, {}});
  }
  for (const Ring& ring : whole) {
    if (signed_area(ring).value() >= 0.0) continue;
    const auto owner =
        std::find_if(out.begin(), out.end(), [&](const Polygon& part) { return contains(part.outer, ring.front()); });
    if (owner != out.end()) owner->holes.push_back(ring);
  }
  return out;
}

void shift(Line& path, double by) {
  for (XY& place : path) place.x += by;
}

// The two meridians at which longitudes leave [-180, 180], and the way back.
struct Turn {
  Side keep;
  Side move;
  double by;
};
constexpr Turn kTurns[] = {{{180.0, false}, {180.0, true}, -360.0}, {{-180.0, true}, {-180.0, false}, 360.0}};

bool leaves(const Line& path, const Turn& turn) {
  return std::any_of(path.begin(), path.end(), [&](XY place) {
    return turn.move.east ? place.x > turn.move.meridian : place.x < turn.move.meridian;
  });
}

}  // namespace

Lines cut_at_180(const Lines& lines) {
  Lines out = lines;
  for (const Turn& turn : kTurns) {
    Lines next;
    for (const Line& line : out) {
      if (!leaves(line, turn)) {
        next.push_back(line);
        continue;
      }
      for (Line& part : stretches(line, turn.keep)) next.push_back(std::move(part));
      for (Line& part : stretches(line, turn.move)) {
        shift(part, turn.by);
        next.push_back(std::move(part));
      }
    }
    out = std::move(next);
  }
  return out;
}

Polygons cut_at_180(const Polygons& polygons) {
  Polygons out = polygons;
  for (const Turn& turn : kTurns) {
    Polygons next;
    for (const Polygon& polygon : out) {
      if (!leaves(polygon.outer, turn)) {
        next.push_back(polygon);
        continue;
      }
      for (Polygon& part : part_of(polygon, turn.keep)) next.push_back(std::move(part));
      for (Polygon& part : part_of(polygon, turn.move)) {
        shift(part.outer, turn.by);
        for (Ring& hole : part.holes) shift(hole, turn.by);
        next.push_back(std::move(part));
      }
    }
    out = std::move(next);
  }
  return out;
}

Line unwrapped(Line path, double near) {
  for (XY& place : path) {
    place.x -= 360.0 * std::round((place.x - near) / 360.0);
    near = place.x;
  }
  return path;
}

}  // namespace castplan
