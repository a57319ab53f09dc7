// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <unordered_map>
#include <unordered_set>

#include "castplan/features/detect.hpp"

namespace castplan {

namespace {

/// A stretch of a feature's shape: two vertices, or one point twice.
struct Stretch {
  XY from;
  XY to;
  int feature;
};

double distance_to_stretch(XY at, const Stretch& stretch) {
  return distance(at, nearest_on(at, stretch.from, stretch.to)).value();
}

bool cross_each_other(const Stretch& a, const Stretch& b) {
  const auto side = [](const Stretch& of, XY at) { return cross(of.to - of.from, at - of.from); };
  return side(a, b.from) * side(a, b.to) < 0 && side(b, a.from) * side(b, a.to) < 0;
}

// Two stretches that do not cross are nearest at an end of one of them.
double between(const Stretch& a, const Stretch& b) {
  if (cross_each_other(a, b)) return 0;
  return std::min({distance_to_stretch(a.from, b), distance_to_stretch(a.to, b), distance_to_stretch(b.from, a),
                   distance_to_stretch(b.to, a)});
}

void append(std::vector<Stretch>& all, const Line& line, int feature) {
  if (line.size() == 1) all.push_back({line[0], line[0], feature});
  for (std::size_t i = 1; i < line.size(); ++i) all.push_back({line[i - 1], line[i], feature});
}

std::vector<Stretch> stretches_of(const std::vector<Feature>& features) {
  std::vector<Stretch> all;
  for (int i = 0; i < static_cast<int>(features.size()); ++i) {
    const Geometry& shape = features[i].geometry;
    if (const auto* points = std::get_if<Points>(&shape)) {
      for (const XY at : *points) all.push_back({at, at, i});
    } else if (const auto* lines = std::get_if<Lines>(&shape)) {
      for (const Line& line : *lines) append(all, line, i);
    } else {
      for (const Polygon& polygon : std::get<Polygons>(shape)) {
        append(all, polygon.outer, i);
        for (const Ring& hole : polygon.holes) append(all, hole, i);
      }
    }
  }
  return all;
}

// One place of each part of a shape.
Points first_places(const Geometry& shape) {
  if (const auto* points = std::get_if<Points>(&shape)) return *points;
  Points firsts;
  if (const auto* lines = std::get_if<Lines>(&shape)) {
    for (const Line& line : *lines) {
      if (!line.empty()) firsts.push_back(line.front());
    }
    return firsts;
  }
  for (const Polygon& polygon : std::get<Polygons>(shape)) {
    if (!polygon.outer.empty()) firsts.push_back(polygon.outer.front());
  }
  return firsts;
}

using Pair = std::uint64_t;
Pair pair_of(int a, int b) {
  return static_cast<Pair>(std::min(a, b)) << 32 | static_cast<std::uint32_t>(std::max(a, b));
}

/// All stretches of one feature in one tile, with the box around them.
struct Patch {
  int feature;
  Box box;
  std::vector<Stretch> stretches;
};

Box joined(const Box& a, const Box& b) {
  return {{std::min(a.low.x, b.low.x), std::min(a.low.y, b.low.y)},
          {std::max(a.high.x, b.high.x), std::max(a.high.y, b.high.y)}};
}

/// Pairs of features of different kinds that come within reach of each other, found with a hash of square tiles.
class Nearness {
 public:
  Nearness(const std::vector<Feature>& features, double reach) : features_(features), reach_(reach) {
    for (const Stretch& stretch : stretches_of(features)) add(stretch);
    for (const auto& [tile, patches] : tiles_) compare_around(tile, patches);
    add_contained();
  }

  /// In no order.
  [[nodiscard]] const std::unordered_set<Pair>& pairs() const { return pairs_; }

 private:
  struct Tile {
    std::int32_t x, y;
    bool operator==(const Tile&) const = default;
  };
  struct TileHash {
    std::size_t operator()(const Tile& tile) const {
      return (static_cast<std::size_t>(static_cast<std::uint32_t>(tile.x)) * 0x9E3779B97F4A7C15U) ^
             static_cast<std::uint32_t>(tile.y);
    }
  };

  // Parts no longer than the reach stand in the tile of their middle. Tiles are twice as wide as the reach, so that
  // parts within reach of each other, whose middles are at most two reaches apart, stand in tiles that touch.
  void add(const Stretch& stretch) {
    const double size = distance(stretch.from, stretch.to).value();
    const int parts = std::max(1, static_cast<int>(std::ceil(size / reach_)));
    const XY step = (stretch.to - stretch.from) * (1.0 / parts);
    for (int i = 0; i < parts; ++i) {
      const XY from = stretch.from + step * i;
      const XY to = i + 1 == parts ? stretch.to : from + step;
      const XY middle = (from + to) * 0.5;
      const Box box{{std::min(from.x, to.x), std::min(from.y, to.y)}, {std::max(from.x, to.x), std::max(from.y, to.y)}};
      std::vector<Patch>& patches = tiles_[{static_cast<std::int32_t>(std::floor(middle.x / (2 * reach_))),
                                            static_cast<std::int32_t>(std::floor(middle.y / (2 * reach_)))}];
      // features come one after the other, so that only the last can be the same
      if (patches.empty() || patches.back().feature != stretch.feature) patches.push_back({stretch.feature, box, {}});
      patches.back().box = joined(patches.back().box, box);
      patches.back().stretches.push_back({from, to, stretch.feature});
    }
  }

  void compare_around(Tile tile, const std::vector<Patch>& patches) {
    for (std::int32_t x = tile.x - 1; x <= tile.x + 1; ++x) {
      for (std::int32_t y = tile.y - 1; y <= tile.y + 1; ++y) {
        const auto other = tiles_.find({x, y});
        if (other == tiles_.end()) continue;
        for (const Patch& a : patches) {
          for (const Patch& b : other->second) compare(a, b);
        }
      }
    }
  }

  // Each pair of patches is met twice, once from either tile.
  void compare(const Patch& a, const Patch& b) {
    if (a.feature >= b.feature || features_[a.feature].kind == features_[b.feature].kind) return;
    const Pair pair = pair_of(a.feature, b.feature);
    if (apart(a.box, b.box).value() > reach_ || pairs_.contains(pair)) return;
    const bool near = std::any_of(a.stretches.begin(), a.stretches.end(), [&](const Stretch& one) {
      return std::any_of(b.stretches.begin(), b.stretches.end(),
                         [&](const Stretch& two) { return between(one, two) <= reach_; });
    });
    if (near) pairs_.insert(pair);
  }

  // What lies inside a polygon is at no distance from it, however far from its outline. Where the outlines do not come
  // near, each part of a shape lies inside as a whole or not at all.
  void add_contained() {
    std::vector<Points> firsts;
    for (const Feature& feature : features_) firsts.push_back(first_places(feature.geometry));
    for (int i = 0; i < static_cast<int>(features_.size()); ++i) {
      const auto* polygons = std::get_if<Polygons>(&features_[i].geometry);
      const auto box = bounds(features_[i].geometry);
      if (polygons == nullptr || !box) continue;
      for (int k = 0; k < static_cast<int>(features_.size()); ++k) {
        if (features_[k].kind == features_[i].kind || pairs_.contains(pair_of(i, k))) continue;
        const bool inside = std::any_of(firsts[k].begin(), firsts[k].end(),
                                        [&](XY at) { return holds(*box, at) && contains(*polygons, at); });
        if (inside) pairs_.insert(pair_of(i, k));
      }
    }
  }

  const std::vector<Feature>& features_;
  double reach_;
  std::unordered_map<Tile, std::vector<Patch>, TileHash> tiles_;
  std::unordered_set<Pair> pairs_;
};

double area_of(const Feature& feature) { return area(std::get<Polygons>(feature.geometry)).value(); }

// The hump or pool that a side of a saddle is: the smallest around the place, for they may be nested.
const Feature* feature_around(const std::vector<Feature>& features, Kind kind, XY place) {
  const Feature* best = nullptr;
  for (const Feature& each : features) {
    const auto* shape = each.kind == kind ? std::get_if<Polygons>(&each.geometry) : nullptr;
    if (shape == nullptr || !contains(*shape, place)) continue;
    if (best == nullptr || area_of(each) < area_of(*best)) best = &each;
  }
  return best;
}

void name_sides(std::vector<Feature>& features) {
  for (Feature& feature : features) {
    auto* saddle = std::get_if<Saddle>(&feature.details);
    if (saddle == nullptr) continue;
    for (SaddleSide& side : saddle->sides) {
      if (side.what == Joined::shore) continue;
      const Kind kind = side.what == Joined::hump ? Kind::hump : Kind::pool;
      if (const Feature* found = feature_around(features, kind, side.place)) side.id = found->id;
    }
  }
}

}  // namespace

void relate(std::vector<Feature>& features, Metres reach) {
  name_sides(features);
  for (Feature& feature : features) feature.neighbours.clear();
  const Nearness nearness(features, reach.value());
  for (const Pair pair : nearness.pairs()) {
    Feature& a = features[pair >> 32];
    Feature& b = features[pair & 0xFFFFFFFFU];
    a.neighbours.push_back(b.id);
    b.neighbours.push_back(a.id);
  }
  for (Feature& feature : features) std::sort(feature.neighbours.begin(), feature.neighbours.end());
}

}  // namespace castplan
