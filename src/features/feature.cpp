// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/features/feature.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

namespace castplan {

namespace {

constexpr std::array kKinds{
    KindRow{Kind::pool, "pool", "pool", "pools", "a closed hole in the floor"},
    KindRow{Kind::drop_off, "drop-off", "drop-off", "drop-offs", "where the floor breaks to deeper water"},
    KindRow{Kind::weed_line, "weed-line", "weed line", "weed lines", "the edge of rooted plants"},
    KindRow{Kind::hump, "hump", "hump", "humps", "a rise that stays under water"},
    KindRow{Kind::saddle, "saddle", "saddle", "saddles", "a low bridge between two rises, or between two holes"},
    KindRow{Kind::flat, "flat", "flat", "flats", "a wide shelf beside deeper water"},
    KindRow{Kind::channel, "channel", "channel", "channels", "an old creek or river bed in the floor"},
    KindRow{Kind::point, "point", "point", "points", "a bar that runs out under water"},
    KindRow{Kind::inside_turn, "inside-turn", "inside turn", "inside turns", "a notch in the slope"},
    KindRow{Kind::narrows, "narrows", "narrows", "narrows", "a waist between two basins"},
    KindRow{Kind::bay, "bay", "bay", "bays", "a sheltered arm with a mouth"},
    KindRow{Kind::wood, "wood", "wood", "wood", "sunken trees and logs"},
    KindRow{Kind::rock, "rock", "rock", "rock", "boulders and rubble"},
    KindRow{Kind::weeds, "weeds", "weed bed", "weed beds", "a mapped bed of plants"},
    KindRow{Kind::dock, "dock", "dock", "docks", "a dock or pier"},
    KindRow{Kind::inflow, "inflow", "inflow", "inflows", "where water comes in"},
    KindRow{Kind::cover, "cover", "placed cover", "placed cover", "brush or cribs that were sunk"},
    KindRow{Kind::hazard, "hazard", "hazard", "hazards", "what a boat can strike"},
    KindRow{Kind::closure, "closure", "closure", "closures", "where the user's rules close the water"},
    KindRow{Kind::launch, "launch", "launch", "launches", "where a boat is put in"},
    KindRow{Kind::spawning_ground, "spawning-ground", "likely spawning ground", "likely spawning grounds",
            "a place to leave alone until the fish have spawned"},
};

struct TypicalDepth {
  double operator()(const Pool& pool) const { return pool.max_depth.value(); }
  double operator()(const DropOff& edge) const { return (edge.top_depth.value() + edge.base_depth.value()) / 2; }
  double operator()(const WeedLine& edge) const { return edge.depth.value(); }
  double operator()(const Hump& hump) const { return hump.top_depth.value(); }
  double operator()(const Saddle& saddle) const { return saddle.depth.value(); }
  double operator()(const Flat& flat) const { return flat.depth.value(); }
  double operator()(const Channel& channel) const { return channel.depth.value(); }
  double operator()(const Bar& bar) const { return bar.depth.value(); }
  double operator()(const Narrows& narrows) const { return narrows.depth.value(); }
  double operator()(const Bay& bay) const { return bay.mean_depth.value(); }
  double operator()(const Structure& structure) const {
    return structure.depth ? structure.depth->value() : std::numeric_limits<double>::quiet_NaN();
  }
  double operator()(const Closure&) const { return std::numeric_limits<double>::quiet_NaN(); }
  double operator()(const LikelyGround& ground) const { return ground.depth.value(); }
  double operator()(const Launch&) const { return std::numeric_limits<double>::quiet_NaN(); }
};

}  // namespace

std::span<const KindRow> kinds() { return kKinds; }

const KindRow& row_of(Kind kind) {
  return *std::find_if(kKinds.begin(), kKinds.end(), [kind](const KindRow& row) { return row.kind == kind; });
}

std::string_view name_of(Kind kind) { return row_of(kind).name; }

std::optional<Kind> kind_named(std::string_view name) {
  const auto row =
      std::find_if(kKinds.begin(), kKinds.end(), [name](const KindRow& each) { return each.name == name; });
  if (row == kKinds.end()) return std::nullopt;
  return row->kind;
}

std::string_view name_of(ClosureKind kind) {
  switch (kind) {
    case ClosureKind::no_entry:
      return "no-entry";
    case ClosureKind::no_fishing:
      return "no-fishing";
    case ClosureKind::no_wake:
      return "no-wake";
    case ClosureKind::electric_only:
      return "electric-only";
  }
  return {};
}

std::string_view name_of(WeedLoss loss) {
  static constexpr std::string_view kNames[] = {"steepness", "scour", "rock", "level swing"};
  return kNames[static_cast<std::size_t>(loss)];
}

std::string id_at(std::string_view kind, LonLat anchor) {
  const double lat = std::round(anchor.lat.degrees * 1e5) / 1e5;
  const double lon = std::round(anchor.lon.degrees * 1e5) / 1e5;
  return fmt::format("{}-{:.5f}{}-{:.5f}{}", kind, std::abs(lat), lat < 0 ? 'S' : 'N', std::abs(lon),
                     lon < 0 ? 'W' : 'E');
}

double typical_depth_m(const Feature& feature) { return std::visit(TypicalDepth{}, feature.details); }

void assign_ids(std::vector<Feature>& features, const Projection& projection) {
  std::map<std::string, std::vector<Feature*>> same;
  for (Feature& feature : features) {
    feature.id = id_at(name_of(feature.kind), projection.to_lonlat(feature.anchor));
    same[feature.id].push_back(&feature);
  }
  for (auto& [id, group] : same) {
    // unknown depths come last
    std::stable_sort(group.begin(), group.end(), [](const Feature* a, const Feature* b) {
      const double da = typical_depth_m(*a);
      const double db = typical_depth_m(*b);
      return (std::isnan(da) ? HUGE_VAL : da) < (std::isnan(db) ? HUGE_VAL : db);
    });
    for (std::size_t i = 1; i < group.size(); ++i) group[i]->id = fmt::format("{}-{}", id, i + 1);
  }
}

}  // namespace castplan
