// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/surroundings.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace castplan {

namespace {

constexpr double kBucket = 25;
constexpr Metres kStep(5);

std::int64_t bucket_coordinate(double value) { return static_cast<std::int64_t>(std::floor(value / kBucket)); }

std::int64_t key_of(std::int64_t x, std::int64_t y) { return x * 2'000'003 + y; }

}  // namespace

bool is_cover(Kind kind) {
  return kind == Kind::wood || kind == Kind::rock || kind == Kind::dock || kind == Kind::cover;
}

bool can_be_cast_at(const Feature& feature, Metres reach) {
  switch (feature.kind) {
    case Kind::pool: {
      const auto& pool = std::get<Pool>(feature.details);
      return pool.max_depth <= reach || (pool.sill_depth && *pool.sill_depth <= reach);
    }
    case Kind::hump:
      return std::get<Hump>(feature.details).top_depth <= reach;
    case Kind::drop_off:
      return std::get<DropOff>(feature.details).top_depth <= reach;
    case Kind::weed_line:
      return std::get<WeedLine>(feature.details).depth <= reach;
    case Kind::weeds:   // its edges are weed lines
    case Kind::saddle:  // forms of the floor; what is cast at is the edges beside them
    case Kind::flat:
    case Kind::channel:
    case Kind::point:
    case Kind::inside_turn:
    case Kind::narrows:
    case Kind::bay:
    case Kind::hazard:
    case Kind::closure:
    case Kind::launch:
    case Kind::spawning_ground:
      return false;
    default:
      return true;
  }
}

Lines lines_of(const Geometry& geometry) {
  Lines lines;
  if (const auto* points = std::get_if<Points>(&geometry)) {
    for (const XY at : *points) lines.push_back({at});
  } else if (const auto* given = std::get_if<Lines>(&geometry)) {
    lines = *given;
  } else {
    for (const Polygon& polygon : std::get<Polygons>(geometry)) {
      lines.push_back(polygon.outer);
      lines.insert(lines.end(), polygon.holes.begin(), polygon.holes.end());
    }
  }
  std::erase_if(lines, [](const Line& line) { return line.empty(); });
  return lines;
}

Surroundings::Surroundings(const Lake& lake, const std::vector<Feature>& features, Metres reach, WavesAt waves)
    : waves_(std::move(waves)), deep_water_(lake) {
  for (const Feature& feature : features) {
    if (!can_be_cast_at(feature, reach)) {
      const auto* pool = std::get_if<Pool>(&feature.details);
      if (pool != nullptr && !pool->sill_depth) deep_basins_.push_back(&feature);
      continue;
    }
    has_cover_ = has_cover_ || is_cover(feature.kind);
    const int number = static_cast<int>(castable_.size());
    castable_.push_back(&feature);
    for (const Line& line : lines_of(feature.geometry)) {
      for (const XY at : line.size() > 1 ? resampled(line, kStep) : line) add(at, number);
    }
  }
}

void Surroundings::add(XY at, int feature) {
  buckets_[key_of(bucket_coordinate(at.x), bucket_coordinate(at.y))].push_back({at, feature});
}

std::vector<Neighbour> Surroundings::near(XY place, Metres within) const {
  const double reach = within.value();
  std::map<int, double> nearest;
  for (auto x = bucket_coordinate(place.x - reach); x <= bucket_coordinate(place.x + reach); ++x) {
    for (auto y = bucket_coordinate(place.y - reach); y <= bucket_coordinate(place.y + reach); ++y) {
      const auto bucket = buckets_.find(key_of(x, y));
      if (bucket == buckets_.end()) continue;
      for (const Sample& sample : bucket->second) {
        const XY apart = sample.at - place;
        if (dot(apart, apart) > reach * reach * 1.0001) continue;  // most are told without a root
        const double away = distance(place, sample.at).value();
        if (away > reach) continue;
        const auto [entry, fresh] = nearest.try_emplace(sample.feature, away);
        if (!fresh) entry->second = std::min(entry->second, away);
      }
    }
  }
  std::vector<Neighbour> found;
  for (const auto& [number, away] : nearest) found.push_back({castable_[number], Metres(away)});
  std::stable_sort(found.begin(), found.end(),
                   [](const Neighbour& a, const Neighbour& b) { return a.distance < b.distance; });
  return found;
}

FanCover Surroundings::in_fan(XY place, XY way, Metres reach) const {
  constexpr double kHalfFan = 0.5;  // cosine of 60 degrees
  const double far = reach.value();
  FanCover cover{Metres(0), 0};
  std::set<Kind> kinds;
  for (auto x = bucket_coordinate(place.x - far); x <= bucket_coordinate(place.x + far); ++x) {
    for (auto y = bucket_coordinate(place.y - far); y <= bucket_coordinate(place.y + far); ++y) {
      const auto bucket = buckets_.find(key_of(x, y));
      if (bucket == buckets_.end()) continue;
      for (const Sample& sample : bucket->second) {
        const XY apart = sample.at - place;
        const double square = dot(apart, apart), ahead = dot(apart, way);
        if (square > far * far || ahead <= 0 || ahead * ahead < kHalfFan * kHalfFan * square) continue;
        cover.edge += kStep;
        kinds.insert(castable_[static_cast<std::size_t>(sample.feature)]->kind);
      }
    }
  }
  cover.kinds = kinds.size();
  return cover;
}

}  // namespace castplan
