// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "castplan/features/feature.hpp"
#include "castplan/geo/shape.hpp"
#include "publish/scouted.hpp"
#include "publish/world_grid.hpp"

namespace castplan {

/// What is known of a lake for everybody. It has no room for an exact spot, a pass, a bearing, a reason, an id of the
/// plan, an input or an option: what a writer is not given it cannot let out.

struct PublicFeature {
  Kind kind{};
  std::string id, name;
  struct Value {
    std::string key;
    std::optional<double> number;  ///< else a text
    std::string text;
  };
  std::vector<Value> values;  ///< by a list of what may leave
  Geometry degrees;           ///< x longitude, y latitude
  std::string geometry;       ///< the same as GeoJSON
};

struct DepthLine {
  double depth_m{};
  Lines degrees;
  std::string geometry;
};

/// Where the water is that deep or deeper.
struct DepthArea {
  double depth_m{};
  Polygons degrees;
  std::string geometry;
};

/// Spots of one phase in an area.
struct CoarseCount {
  std::string phase;
  int spots = 0;
  int best_ten = 0;  ///< how many of them are among the ten best
};

/// A square of the world grid, with slivers of water beside it, and how many spots lie there.
struct CoarseArea {
  std::string id;                ///< area-45.495N-40.010W: its south-west corner
  std::vector<CellEdges> cells;  ///< its own square first
  std::vector<CoarseCount> counts;
  [[nodiscard]] int spots() const;
  [[nodiscard]] int best_ten() const;
};

struct PublicLake {
  std::string name, slug;
  LonLat centre;
  double area_m2{};
  std::optional<double> max_depth_m, mean_depth_m, shoreline_m;
  std::string date;                                ///< YYYY-MM-DD or empty
  std::string species;                             ///< for people
  std::vector<std::string> phases;                 ///< for people
  std::string temperatures;                        ///< for which it holds
  std::string level;                               ///< none, caution, stop
  std::vector<std::string> reasons;                ///< of the advisory; at a stop with when to look again
  std::vector<std::string> cautions;               ///< for the water; the user's rules stand apart
  std::vector<std::string> leave_alone;            ///< spawning ground in words
  std::string surface, source, licence, surveyed;  ///< of the depths
  std::string rules, rules_source, rules_checked;  ///< in the user's own words
  std::vector<std::string> not_assessed;           ///< layers that were not given
  std::vector<std::pair<Kind, int>> counted;       ///< kinds that leave as a number only
  std::vector<PublicFeature> features;             ///< in the order of kinds
  Polygons outline;                                ///< degrees
  std::string outline_geometry;                    ///< the same as GeoJSON
  std::vector<DepthArea> depth_areas;              ///< shallowest first
  std::vector<DepthLine> contours;                 ///< shallowest first
  bool small = false;                              ///< under 200 ha: no spots
  std::vector<CoarseArea> areas;                   ///< from north to south; none at a stop and where small
  [[nodiscard]] bool stopped() const { return level == "stop"; }
  [[nodiscard]] int spots() const;
};

PublicLake public_lake(const Scouted& scouted, const WorldGrid& grid, bool exact);

/// Areas of the spots of a plan. A square that holds less water than a quarter of the size asked would tell a place by
/// the shore that cuts it: it is joined to the neighbour with the most water, by the lake's outline alone, whatever
/// spots there are.
std::vector<CoarseArea> coarse_areas(const Json& spots, const Polygons& outline, const WorldGrid& grid);

/// Where spawning ground is to be left alone, in words, with the temperatures of the plan or of the species' profile.
std::vector<std::string> spawning_words(const Scouted& scouted);

/// A spot or a pass as it is, for --exact alone.
struct ExactSpot {
  std::string phase, hold, lures, reason;
  int rank{};
  LonLat boat, target;
  double boat_depth_m{}, target_depth_m{}, bearing_deg{}, cast_m{};
  std::vector<std::string> cautions;
  std::string json;  ///< the whole feature, less what must not leave
};
struct ExactPass {
  std::string phase, side;
  int rank{};
  Lines lane;  ///< degrees
  double length_m{};
  std::vector<std::string> cautions;
  std::string json;
};
struct ExactPlaces {
  std::vector<ExactSpot> spots;
  std::vector<ExactPass> passes;
  int left_out = 0;  ///< that cast at what must not leave
};
/// Nothing at a stop and in small waters.
ExactPlaces exact_places(const Scouted& scouted, bool small);

}  // namespace castplan
