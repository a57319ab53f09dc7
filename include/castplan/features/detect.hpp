// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "castplan/features/feature.hpp"
#include "castplan/grid/lake.hpp"
#include "castplan/grid/mapped.hpp"
#include "castplan/terrain/habitat.hpp"

namespace castplan {

/// What counts as a feature is absolute: fish do not grow with the lake. All are design choices unless said otherwise.
struct DetectOptions {
  Metres pool_relief = Metres(1.0);             ///< a second pool, over its sill
  SquareMetres pool_body = SquareMetres(1000);  ///< water bodies above this always have their deepest pool
  Metres hump_relief = Metres(1.0);
  Metres break_relief = Metres(1.2);  ///< or twice the depth error, whichever is more,
  Metres break_window = Metres(30);   ///< within this distance (or three cells, whichever is more)
  double break_grade_pct = 15;
  Metres wall = Metres(3);             ///< a shore that falls straight into less water than this is no break
  Metres break_length = Metres(40);    ///< shortest edge kept (or three cells)
  Metres break_scale = Metres(8);      ///< sigma of the smoothing that finds the line (or 1.25 cells)
  Metres longest_piece = Metres(300);  ///< edges are cut so that each piece is one pass for a boat

  Metres saddle_relief = Metres(1.0);           ///< over the floor on both flanks, and of what it joins over it,
  Metres saddle_window = Metres(100);           ///< within this distance
  Metres saddles_apart = Metres(25);            ///< passes no further from one another are one bridge
  double flat_grade_pct = 3;                    ///< steepest floor of a flat
  Metres flat_width = Metres(40);               ///< narrowest flat
  SquareMetres flat_area = SquareMetres(8000);  ///< about two acres
  Metres flat_shallowest = Metres(0.5);         ///< less water than this is a beach or a mud bank
  Metres flat_edge = Metres(60);                ///< least length of its outline that breaks to deeper water,
  double flat_edge_share = 0.25;                ///< and least share of all that is no shore,
  Metres flat_fall = Metres(1.5);               ///< by this much
  Metres flat_fall_within = Metres(30);         ///< within this distance
  Metres channel_relief = Metres(1.0);          ///< of both banks over the bed, or twice the depth error,
  Metres channel_bank = Metres(40);             ///< within this distance of its middle
  Metres channel_length = Metres(100);          ///< shortest channel kept
  Metres neighbour_reach = Metres(25);  ///< features this near are neighbours: the longest cast (common practice)

  Metres weed_length = Metres(60);       ///< shortest weed line kept
  Metres weed_gap = Metres(30);          ///< a bare stretch that parts it
  double weed_steepest_pct = 20;         ///< floor that holds no plants: the edge lies at the break above it,
  Metres weed_strip = Metres(30);        ///< and plants that far below such a floor are no bed of their own
  Metres weed_shallowest = Metres(0.5);  ///< an edge in less water is of no use; an inside edge in less than twice the
                                         ///< depth error cannot be told from the shore
  MetresPerSecond weed_wind{5};          ///< from any side: an ordinary windy day of the growing season
  Metres weed_swing = Metres(1.5);       ///< of the level in a year; more leaves few plants
  double weed_swing_share = 0.2;         ///< of them
  Metres weed_inside_reach = Metres(100);  ///< how far an inside edge is looked for from its usual depth
  Metres draft = Metres(0.45);
  Metres margin = Metres(0.6);         ///< under the keel, before the depth error
  Metres point_relief = Metres(1.0);   ///< of a point's crest over the floor to both its sides
  Metres turn_relief = Metres(2.0);    ///< of an inside turn under it: any shore has many that are shallower
  double point_turn = 0.3;             ///< of the contours at some depths: sin of half their bend (35 degrees)
  Metres point_window = Metres(40);    ///< contour to each side of a bend; wider bends are looked for in twice it
  Metres point_span = Metres(1.5);     ///< of the depths that agree, at least three
  Metres point_head = Metres(5);       ///< deepest beginning of a crest: further down it is a ridge or a valley
  Metres narrows_width = Metres(250);  ///< widest waist
  Metres narrows_basin = Metres(30);   ///< least half-width of the basins on both sides,
  double narrows_ratio = 1.6;          ///< and how much wider than the waist they are
  std::array<Metres, 3> narrows_levels{Metres(2), Metres(4), Metres(8)};  ///< looked for at these depths too, where
  Metres narrows_relief = Metres(1.0);                                    ///< the middle is so much deeper than that
  SquareMetres bay_area = SquareMetres(5000);
  double bay_share = 0.25;               ///< of its water body; a larger part is a basin of the lake
  double bay_winding = 2.0;              ///< shore of a bay over its mouth; half a circle has pi / 2
  Metres hazard_from_land = Metres(30);  ///< shoals joined to the shore count only beyond this
  Metres stump_height = Metres(1);       ///< of mapped wood in a reservoir, over the floor
  Metres hazards_apart = Metres(40);     ///< shoals no further from one another than this are one hazard
};

/// Noise from cell to cell that no detector minds: a thirtieth of the least relief that counts. Design choice.
inline constexpr Metres kQuiet(0.04);

/// The weed edge that holds for the lake.
struct WeedKnowledge {
  Metres depth;
  WeedSource source{};
  std::optional<Metres> low{}, high{};  ///< the band around it
  std::optional<Metres> deepest{};      ///< the deepest plants
};

/// How the surface moves in a year.
struct LevelSwing {
  Metres range;
  Metres down_to;  ///< depth below today's surface that falls dry at the lowest
};

/// Spawning ground to look for.
struct GroundWanted {
  std::string species, title;  ///< northern-pike, Northern pike
  Habitat habitat;
  std::string reason, waters;  ///< as in LikelyGround
};

struct Floor;  // of the detectors' own

/// What a detector may look at.
struct Ground {
  const Lake& lake;
  /// Depth with land as 0 and unknown as NaN, smoothed at `scale`; only filled when a detector needs it.
  Grid<Metres32> smooth;
  Metres scale;
  std::optional<WeedKnowledge> weeds;
  std::span<const MappedStructure> structure;
  std::span<const MappedClosure> closures;
  std::span<const MappedLaunch> launches;
  /// Noise of the depths from cell to cell, and the lake without it; filled where there is any to speak of.
  Metres noise{};
  const Lake* without_noise = nullptr;
  std::shared_ptr<const Floor> floor{};  ///< for forms that are tens of metres wide; filled by `find_features`
  std::optional<LevelSwing> swing{};     ///< none: not known
  bool reservoir = false;                ///< mapped wood is what was left standing when it was filled
  std::vector<GroundWanted> wanted{};    ///< spawning ground, only where somebody needs it

  [[nodiscard]] const Lake& quiet() const { return without_noise != nullptr ? *without_noise : lake; }
};

/// One row a detector: adding one is a file and a row.
struct Detector {
  std::string_view name;
  std::string_view what;
  bool needs_smooth;
  std::vector<Feature> (*find)(const Ground&, const DetectOptions&);
};
std::span<const Detector> detectors();

/// The smoothing that the detectors worked with, as sigma of a Gaussian mean.
struct Scales {
  Metres breaks;  ///< lines of steepest floor
  Metres forms;   ///< flats and channels; passes are looked for on two thirds of it, or on blocks as wide
  Metres bends;   ///< contours for points and inside turns
  Metres noise;   ///< of the depths from cell to cell: what was found, no more than the survey's error
  Metres
      quiet;  ///< against that noise, for pools, humps, shoals and weed edges; 0 where they read the cells themselves
};

/// Builds the ground (smoothing only what is needed), runs every detector and gives the features their ids. Order: by
/// detector, then as each detector states. used: filled where it is given.
std::vector<Feature> find_features(Ground ground, const DetectOptions& options, Scales* used = nullptr);

/// The same in words, in metres.
std::string in_words(const Scales& scales);

/// Fills in the neighbours of each feature: all of another kind whose shapes come within reach of its own, or that lie
/// inside its polygon or it in theirs, in order of their ids; and the ids of what saddles join. Needs the ids.
void relate(std::vector<Feature>& features, Metres reach);

/// Least depth that floats the boat: draft, margin and the error of the depths.
Metres floating_depth(const Lake& lake, Metres draft, Metres margin);

std::vector<Feature> find_pools(const Ground& ground, const DetectOptions& options);      ///< deepest first
std::vector<Feature> find_drop_offs(const Ground& ground, const DetectOptions& options);  ///< from north to south
/// Mapped beds first, then outside edges, then inside edges; each as its lines come. A bed that somebody mapped wins.
/// An outside edge lies at the depth of the knowledge, or at the break above it. An inside edge lies where the waves of
/// `weed_wind` let go of the bottom, at half their length: Chambers (1987), Can. J. Fish. Aquat. Sci. 44, 1666-1669,
/// found the shallowest plants of four lakes at the depth of wave mixing (slope 1, intercept 0, r = 0.86); or at the
/// bottom of a swing of the level. Which wind counts is a design choice. Nothing is said of waves where the map ends
/// before the shore.
std::vector<Feature> find_weed_lines(const Ground& ground, const DetectOptions& options);
std::vector<Feature> find_humps(const Ground& ground, const DetectOptions& options);     ///< shallowest first
std::vector<Feature> find_saddles(const Ground& ground, const DetectOptions& options);   ///< shallowest first
std::vector<Feature> find_flats(const Ground& ground, const DetectOptions& options);     ///< largest first
std::vector<Feature> find_channels(const Ground& ground, const DetectOptions& options);  ///< from north to south
std::vector<Feature> find_points(const Ground& ground,
                                 const DetectOptions& options);  ///< and inside turns: north first
std::vector<Feature> find_narrows(
    const Ground& ground,
    const DetectOptions& options);  ///< those of the shore first, then by depth of the contour; narrowest first
std::vector<Feature> find_bays(const Ground& ground, const DetectOptions& options);  ///< largest first
/// Floor that looks like spawning ground, for each species wanted; largest first. It lies in the depths and on the
/// grade of the habitat, where the greatest effective fetch over all winds is no more than the habitat's, on no nose or
/// rise where the bed is to be concave, and not in a shallow flat that a square of the habitat's largest area fits
/// into. Looked at on blocks of up to 15 m, the fetch every 40 m. Where the map ends before the shore the fetch is not
/// known, and nothing is concluded. Confidence stays under 0.6: a model fitted to 28 lakes told ground from water
/// beside it on a new lake with an AUC of 0.637 (Nohner & Diana 2015).
std::vector<Feature> find_spawning_ground(const Ground& ground, const DetectOptions& options);
std::vector<Feature> find_hazards(const Ground& ground, const DetectOptions& options);
std::vector<Feature> mapped_features(const Ground& ground, const DetectOptions& options);

}  // namespace castplan
