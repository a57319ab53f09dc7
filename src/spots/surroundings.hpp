// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <unordered_map>
#include <utility>
#include <vector>

#include "castplan/features/feature.hpp"
#include "castplan/grid/lake.hpp"
#include "spots/deep_water.hpp"

namespace castplan {

/// What can be cast at: edges and cover, not closures, launches or hazards; a pool only where a lure reaches its rim.
bool can_be_cast_at(const Feature& feature, Metres reach);

/// Wood, rock, docks and placed cover: what a fish lies beside.
bool is_cover(Kind kind);

inline constexpr Metres kDeepSeen(150);  ///< deep water is looked for within this

/// A feature near a place.
struct Neighbour {
  const Feature* feature;
  Metres distance;
};

/// What a fan of casts passes.
struct FanCover {
  Metres edge;          ///< of lines and outlines, and 5 m for each point
  std::size_t kinds{};  ///< of features
};

/// Answers what lies near a place, from points every 5 m along the features that can be cast at.
class Surroundings {
 public:
  /// Height of the waves at a place; none where it is not known.
  using WavesAt = std::function<std::optional<Metres>(XY)>;
  /// waves: of the wind of the day, where one is known.
  Surroundings(const Lake& lake, const std::vector<Feature>& features, Metres reach, WavesAt waves = {});
  /// Features within a distance, nearest first (ties in the order of the features). Accurate to 2.5 m.
  [[nodiscard]] std::vector<Neighbour> near(XY place, Metres within) const;
  /// What lies within reach of a place, up to 60 degrees to each side of a way (length 1).
  [[nodiscard]] FanCover in_fan(XY place, XY way, Metres reach) const;
  /// Height of the waves at a place in the wind of the day; none where it is not known.
  [[nodiscard]] std::optional<Metres> waves_at(XY place) const {
    return waves_ ? waves_(place) : std::optional<Metres>{};
  }
  /// Distance to the nearest water at least so deep; `kDeepSeen` where there is none within it.
  [[nodiscard]] Metres to_deep_water(XY place, Metres depth) const {
    return deep_water_.distance_to(place, depth, kDeepSeen);
  }
  [[nodiscard]] bool has_cover() const { return has_cover_; }  ///< any wood, rock, dock or placed cover was mapped
  [[nodiscard]] const std::vector<const Feature*>& castable() const { return castable_; }
  /// The deepest pool of each water, where its rim too lies deeper than a lure's reach.
  [[nodiscard]] const std::vector<const Feature*>& deep_basins() const { return deep_basins_; }

 private:
  struct Sample {
    XY at;
    int feature;
  };
  void add(XY at, int feature);
  std::vector<const Feature*> castable_, deep_basins_;
  std::unordered_map<std::int64_t, std::vector<Sample>> buckets_;
  bool has_cover_ = false;
  WavesAt waves_;
  DeepWater deep_water_;
};

/// All lines of a shape: lines themselves, rings of polygons, points as lines of one point.
Lines lines_of(const Geometry& geometry);

}  // namespace castplan
