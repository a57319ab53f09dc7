// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "castplan/geo/projection.hpp"
#include "castplan/geo/shape.hpp"

namespace castplan {

enum class Kind {
  pool,
  drop_off,
  weed_line,
  hump,
  saddle,
  flat,
  channel,
  point,
  inside_turn,
  narrows,
  bay,
  wood,
  rock,
  weeds,
  dock,
  inflow,
  cover,
  hazard,
  closure,
  launch,
  spawning_ground
};

/// One row a kind; listings, help and the page are made from it.
struct KindRow {
  Kind kind;
  std::string_view name;    ///< in files: drop-off
  std::string_view label;   ///< for people, singular: drop-off
  std::string_view plural;  ///< for people: drop-offs
  std::string_view what;    ///< what it is on the water, a few words
};
std::span<const KindRow> kinds();
const KindRow& row_of(Kind kind);
std::string_view name_of(Kind kind);
std::optional<Kind> kind_named(std::string_view name);

/// What is known of a feature beyond its shape, by kind. Depths below today's surface; NaN or nullopt is unknown.
struct Pool {
  Metres max_depth;
  XY deepest;
  std::optional<Metres> sill_depth;  ///< none: the deepest of its water body, or a sill that lies off the map
  Metres relief;                     ///< to the sill; to the surface where there is none
  SquareMetres area;
  CubicMetres volume;
};
struct DropOff {
  Metres top_depth;
  Metres base_depth;
  Metres relief;
  double grade_pct;
  Metres length;
  Degrees faces;  ///< downslope, true
};
enum class WeedEdge { outside, inside };
enum class WeedSource { mapped, observed, fitted, predicted };
/// What keeps plants off a place that has light enough.
enum class WeedLoss { steepness, scour, rock, level_swing };
std::string_view name_of(WeedLoss loss);
/// A bare stretch of an edge.
struct WeedGap {
  XY from;
  XY to;
  Metres length;  ///< along the edge
  WeedLoss why{};
};
struct WeedLine {
  WeedEdge edge;
  WeedSource source;
  Metres depth;  ///< median along the edge
  Metres length;
  double density;  ///< 0 to 1
  /// Where the edge may lie for all that the formula or the fit knows; none for mapped and for inside edges.
  std::optional<Metres> depth_low{}, depth_high{};
  std::optional<Metres> deepest{};       ///< where the last plants stand, beyond the dense edge; none: not known
  bool at_break = false;                 ///< most of it lies where the floor turns steep, above the depth of the light
  std::optional<WeedLoss> bare_above{};  ///< of an inside edge: what keeps the shallows bare
  std::vector<WeedLoss> lowered_by{};    ///< what took from the density, in the order above
  std::vector<WeedLoss> not_assessed{};  ///< what may take from it as well, for all that is known
  Points points{};                       ///< where the edge bends out, to deeper water
  Points turns{};                        ///< where it bends in
  std::vector<WeedGap> gaps{};           ///< in it, and at its ends where the edge goes on beyond
};
struct Hump {
  Metres top_depth;
  XY top;
  Metres base_depth;
  Metres relief;
  SquareMetres area;
};
/// What a saddle joins at one side, or the hole that it parts from another.
enum class Joined { hump, pool, shore };
struct SaddleSide {
  Joined what{};
  XY place;        ///< top of the hump or deepest place of the pool; says nothing for the shore
  std::string id;  ///< of the hump or pool; empty for the shore, and where that hump or pool is no feature
};
struct Saddle {
  Metres depth;
  Metres relief;  ///< over the floor on its lower flank
  std::array<SaddleSide, 2> sides;
};
struct Flat {
  Metres depth;  ///< median
  SquareMetres area;
  Metres edge;  ///< length of its outline that breaks to deeper water
};
struct Channel {
  Metres depth;  ///< median along the bed
  Metres length;
  Metres relief;     ///< of the lower bank over the bed, median
  Metres width;      ///< where half of that has been climbed on both sides, median
  Points bends;      ///< outer bank of each bend
  Points near_bank;  ///< where one bank is the foot of a slope that goes on rising
};
/// A point or an inside turn, by its kind.
struct Bar {
  Metres depth;   ///< of a point's tip, of an inside turn's head
  Metres relief;  ///< how far the floor falls from a point's crest, or rises from a turn's, on the lesser side
  Degrees faces;  ///< along the crest towards deeper water, true
};
struct Narrows {
  Metres depth;
  Metres width;
  Metres level{};  ///< of the contour whose waist it is; 0: the shoreline
};
struct Bay {
  SquareMetres area;
  XY mouth[2];   ///< the bay lies on the left of the way from the first to the second
  Metres width;  ///< of the mouth, without islands in it
  Metres mean_depth;
  Degrees faces;  ///< out of the bay, true
  /// effective fetch at the mouth for wind that blows in; none where the map ends first
  std::optional<Metres> fetch;
};
/// wood, rock, weeds, dock, inflow, cover and hazards: what a layer mapped, or for a hazard the shoal that was found
struct Structure {
  std::optional<Metres> depth;  ///< none: off the survey
  std::string source_file;      ///< empty: found in the depths
  std::string attribute;        ///< inflow: cool, warm or unknown; hazard: what was mapped
};
enum class ClosureKind { no_entry, no_fishing, no_wake, electric_only };
std::string_view name_of(ClosureKind kind);
struct Closure {
  ClosureKind kind;
  std::string from, to;  ///< MM-DD, empty: all year
  bool active = true;    ///< on the planned date
  std::string source_file;
};
struct Launch {
  std::optional<Metres> usable_above;  ///< water surface elevation
  bool dry = false;                    ///< today's surface is below it
};

/// Where fish are likely to spawn, by the look of the floor: a place to leave alone.
struct LikelyGround {
  std::string species;  ///< muskellunge
  Metres depth;         ///< mean
  SquareMetres area;
  std::optional<Metres> fetch;  ///< greatest effective fetch over all winds, of the part that has the most
  bool hollow = false;          ///< most of its bed is hollow
  bool plants = false;          ///< plants are mapped or expected on most of it
  std::string reason;           ///< why it is likely, one sentence
  std::string waters;           ///< when it carries no spot, for people: "rising water of 5 to 17 C (41 to 63 F)"
};

using Details = std::variant<Pool, DropOff, WeedLine, Hump, Saddle, Flat, Channel, Bar, Narrows, Bay, Structure,
                             Closure, Launch, LikelyGround>;

/// A place on the lake with a name and a reason.
struct Feature {
  std::string id;  ///< kind, latitude and longitude of the anchor to 1e-5 degree; see `assign_ids`
  Kind kind{};
  std::string name;
  double confidence{};  ///< 0 to 1
  Geometry geometry;
  XY anchor;  ///< the deepest point, the top, or the middle of a line
  Details details;
  std::vector<std::string> neighbours;  ///< ids of features of other kinds within a cast, in order
};

/// "drop-off-45.51234N-40.01234W": kind, then latitude and longitude of the anchor to 1e-5 degree. Equal ids get
/// -2, -3 ... in order of depth, shallowest first.
std::string id_at(std::string_view kind, LonLat anchor);
void assign_ids(std::vector<Feature>& features, const Projection& projection);

/// A depth that stands for the feature: pool and hump their extreme, an edge its middle, a point its tip, a bay its
/// mean; NaN where unknown.
double typical_depth_m(const Feature& feature);

}  // namespace castplan
