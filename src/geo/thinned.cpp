// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "geo/thinned.hpp"

#include <cmath>
#include <vector>

namespace castplan {
namespace {

constexpr std::size_t kFewest = 4;

double length_of(XY step) { return std::sqrt(step.x * step.x + step.y * step.y); }

/// Distance of a place from a segment.
double distance_from(XY place, XY a, XY b) {
  if (a == b) return length_of(place - a);
  const XY along = b - a;
  const double squared = along.x * along.x + along.y * along.y;
  const double share = ((place.x - a.x) * along.x + (place.y - a.y) * along.y) / squared;
  if (share <= 0.0) return length_of(place - a);
  if (share >= 1.0) return length_of(place - b);
  return std::fabs(((a.y - place.y) * along.x - (a.x - place.x) * along.y) / squared) * std::sqrt(squared);
}

/// From one vertex to another, and how many times the ring was parted to get there.
struct Section {
  std::size_t first, last;
  std::size_t parted;
};

struct Furthest {
  std::size_t vertex;
  double distance;
};

Furthest furthest_in(const Ring& ring, const Section& section) {
  Furthest found{section.first, -1};
  for (std::size_t i = section.first + 1; i < section.last; ++i) {
    const double distance = distance_from(ring[i], ring[section.first], ring[section.last]);
    if (distance > found.distance) found = {i, distance};
  }
  return found;
}

}  // namespace

Ring thinned(const Ring& ring, double tolerance) {
  if (ring.size() < 2) return ring;
  Ring kept{ring.front()};
  std::vector<Section> open{{0, ring.size() - 1, 1}};
  while (!open.empty()) {
    const Section section = open.back();
    open.pop_back();
    if (section.first + 1 < section.last) {
      const Furthest furthest = furthest_in(ring, section);
      // however small the ring, enough of it is kept to be one
      const bool enough = kept.size() >= kFewest || section.parted + 1 >= kFewest;
      if (!enough || furthest.distance > tolerance) {
        open.push_back({furthest.vertex, section.last, section.parted + 1});
        open.push_back({section.first, furthest.vertex, section.parted + 1});
        continue;
      }
    }
    kept.push_back(ring[section.last]);
  }
  return kept;
}

}  // namespace castplan
