// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cmath>
#include <deque>
#include <numbers>
#include <string>

#include "castplan/write/plan.hpp"

namespace castplan::sample {

/// An invented plan for the tests of the writers: one feature of each kind and three spots in two phases, on a round
/// bowl. All names are invented; the lake lies in the open ocean unless a test moves it.
struct Options {
  LonLat centre{Longitude{-40.0}, Latitude{45.5}};
  std::string lake_name = "Kestrel Mere";
  std::string feature_name = "Heron Hole";  ///< of the pool
  Units units = Units::metric;
  bool one_phase = false;
  bool stop = false;
  bool overridden = false;  ///< with a stop
};

/// Radius 300 m, 6 m deep in the middle: depth = 6 (1 - r^2 / R^2). Area pi R^2, volume pi R^2 6 / 2.
inline constexpr double kRadius = 300.0;
inline constexpr double kDepth = 6.0;

inline Ring circle(XY centre, double radius, int corners = 32) {
  Ring ring;
  for (int at = 0; at < corners; ++at) {
    const double angle = 2.0 * std::numbers::pi * at / corners;
    ring.push_back({centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)});
  }
  ring.push_back(ring.front());
  return ring;
}

inline Ring clockwise(Ring ring) { return {ring.rbegin(), ring.rend()}; }

inline Lake bowl(LonLat centre) {
  Lake lake;
  lake.projection = Projection::transverse_mercator(centre);
  const Frame frame{{-330.0, 330.0}, Metres(10.0), 66, 66};
  lake.depth = Grid<Metres32>(frame, Metres32(NAN));
  lake.cover = Grid<Cover>(frame, Cover::land);
  for (std::size_t at = 0; at < lake.depth.size(); ++at) {
    const XY place = frame.centre(lake.depth.cell_of(at));
    const double depth = kDepth * (1.0 - dot(place, place) / (kRadius * kRadius));
    if (depth <= 0.0) {
      if (depth > -0.5) lake.depth[at] = Metres32(0.0F);
      continue;
    }
    lake.depth[at] = Metres32(static_cast<float>(depth));
    lake.cover[at] = Cover::water;
  }
  lake.body_of = groups_of(frame, [&](int row, int first, std::span<std::uint8_t> out) {
    for (std::uint8_t& mark : out) mark = lake.cover[Cell{row, first++}] == Cover::water ? 1 : 0;
  });
  lake.area = SquareMetres(std::numbers::pi * kRadius * kRadius);
  lake.volume = CubicMetres(lake.area.value() * kDepth / 2.0);
  lake.max_depth = Metres(kDepth);
  lake.mean_depth = Metres(kDepth / 2.0);
  lake.shoreline = Metres(2.0 * std::numbers::pi * kRadius);
  lake.shoreline_development = 1.0;
  lake.bodies = {{lake.area, lake.volume, lake.max_depth, {0.0, 0.0}}};
  lake.outline = {{circle({0.0, 0.0}, kRadius, 64), {}}};
  return lake;
}

inline Feature feature(Kind kind, std::string name, Geometry geometry, XY anchor, Details details) {
  Feature out;
  out.kind = kind;
  out.name = std::move(name);
  out.confidence = 0.8;
  out.geometry = std::move(geometry);
  out.anchor = anchor;
  out.details = std::move(details);
  return out;
}

/// One of each kind, a hole in the pool, a line and a point among the mapped structure.
inline std::vector<Feature> features(const Options& options, const Projection& projection) {
  const Structure wood{Metres(2.5), "wood.shp", ""};
  std::vector<Feature> out{
      feature(Kind::pool, options.feature_name, Polygons{{circle({0, 0}, 120), {clockwise(circle({60, 0}, 20))}}},
              {0, 0}, Pool{Metres(6), {0, 0}, std::nullopt, Metres(6), SquareMetres(43982.3), CubicMetres(90000.04)}),
      feature(Kind::drop_off, "East drop-off", Lines{{{150, 60}, {170, 0}, {150, -60}}}, {170, 0},
              DropOff{Metres(2), Metres(4.5), Metres(2.5), 22.04, Metres(126.49), Degrees(269.97)}),
      feature(Kind::weed_line, "Weed edge", Lines{{{0, 210}, {100, 190}}, {{120, 180}, {170, 130}}}, {100, 190},
              WeedLine{WeedEdge::outside,
                       WeedSource::predicted,
                       Metres(3.2),
                       Metres(172.7),
                       0.75,
                       Metres(2.9),
                       Metres(3.2),
                       std::nullopt,
                       true,
                       std::nullopt,
                       {WeedLoss::steepness, WeedLoss::rock},
                       {WeedLoss::level_swing},
                       Points{{100, 190}},
                       Points{},
                       {{{100, 190}, {120, 180}, Metres(22.36), WeedLoss::rock}}}),
      feature(Kind::hump, "Mid hump", Polygons{{circle({-90, 60}, 15), {}}}, {-90, 60},
              Hump{Metres(1.9), {-90, 60}, Metres(4.1), Metres(2.2), SquareMetres(706.86)}),
      feature(Kind::saddle, "Low bridge", Points{{-60, 30}}, {-60, 30},
              Saddle{Metres(3.3), Metres(1.42), {{{Joined::hump, {-90, 60}, "hump-1"}, {Joined::shore, {0, 0}, ""}}}}),
      feature(Kind::flat, "South flat", Polygons{{circle({0, -170}, 60), {clockwise(circle({0, -170}, 20))}}},
              {40, -170}, Flat{Metres(1.8), SquareMetres(10053.14), Metres(188.5)}),
      feature(Kind::channel, "Old creek", Lines{{{100, 120}, {110, 60}, {90, 0}}}, {110, 60},
              Channel{Metres(4.9), Metres(124.07), Metres(1.3), Metres(22.5), {{115, 60}}, {}}),
      feature(Kind::point, "South point", Lines{{{20, -290}, {25, -250}, {20, -220}}}, {25, -250},
              Bar{Metres(2.7), Metres(1.6), Degrees(1.2)}),
      feature(Kind::inside_turn, "West notch", Lines{{{-290, 10}, {-240, 12}}}, {-265, 11},
              Bar{Metres(0.8), Metres(1.9), Degrees(89.97)}),
      feature(Kind::narrows, "The gut", Points{{-210, -150}}, {-210, -150}, Narrows{Metres(1.6), Metres(84.5)}),
      feature(
          Kind::bay, "Reed bay", Polygons{{circle({200, -180}, 20), {}}}, {180, -180},
          Bay{SquareMetres(1248.6), {{180, -160}, {180, -200}}, Metres(40), Metres(1.25), Degrees(270), Metres(350.5)}),
      feature(Kind::wood, "Sunken oaks", Points{{-180, -60}, {-185, -66}}, {-180, -60}, wood),
      feature(Kind::rock, "Boulder bar", Lines{{{-60, -200}, {-20, -210}}}, {-40, -205},
              Structure{Metres(2.9), "rock.shp", ""}),
      feature(Kind::weeds, "Mapped bed", Polygons{{circle({60, 210}, 25), {}}}, {60, 210},
              Structure{Metres(2.8), "weeds.shp", ""}),
      feature(Kind::dock, "Club dock", Points{{0, 285}}, {0, 285}, Structure{Metres(0.6), "docks.shp", ""}),
      feature(Kind::inflow, "Reed brook", Points{{310, 0}}, {310, 0}, Structure{std::nullopt, "brooks.shp", "cool"}),
      feature(Kind::cover, "Placed brush", Points{{90, -120}}, {90, -120}, Structure{Metres(4.5), "cover.shp", ""}),
      feature(Kind::hazard, "Grey shoal", Polygons{{circle({-200, 100}, 10), {}}}, {-200, 100},
              Structure{Metres(0.4), "", ""}),
      feature(Kind::closure, "Heron refuge", Polygons{{circle({0, -240}, 30), {}}}, {0, -240},
              Closure{ClosureKind::no_entry, "04-01", "07-31", true, "refuge.shp"}),
      feature(Kind::launch, "North ramp", Points{{0, 300}}, {0, 300}, Launch{Metres(312.0), false}),
      feature(Kind::spawning_ground, "Likely spawning ground 1", Polygons{{circle({-230, -60}, 20), {}}}, {-230, -60},
              LikelyGround{"muskellunge", Metres(1.2), SquareMetres(1256.6), Metres(310), true, false,
                           "Sheltered and shallow.", "rising water of 5 to 17 C (41 to 63 F)"}),
  };
  for (Feature& one : out) one.id = id_at(name_of(one.kind), projection.to_lonlat(one.anchor));
  out.front().neighbours = {out[1].id, out[2].id};
  return out;
}

inline Phase phase(std::string name, std::string title, double from, double to) {
  Phase out;
  out.name = std::move(name);
  out.title = std::move(title);
  out.rising = Phase::Interval{Celsius(from), Celsius(to)};
  out.what = "The fish feeds near cover.";
  out.where = "Edges beside deep water.";
  return out;
}

inline Profile profile() {
  Profile out;
  out.name = "mere-pike";
  out.title = "Mere pike";
  out.latin = "Esox inventus";
  out.phases = {phase("pre-spawn", "Pre-spawn", 4.0, 8.0), phase("early-summer", "Early summer", 15.6, 21.0)};
  out.stop_from = Sourced<Celsius>{fahrenheit(75.0), {"an invented source", "design"}};
  out.stop_text = "75 F";
  out.handling = {"Support the fish level with both hands."};
  out.unverified = {"stop_from"};
  return out;
}

/// The score is the product of suitability^weight: 0.81^0.5 x 0.64^0.5 = 0.72 times a share of its own by rank.
inline Spot spot(const std::string& phase, int rank, XY boat, XY target, Kind kind, const Projection& projection) {
  Spot out;
  out.id = id_at("spot", projection.to_lonlat(boat));
  out.phase = phase;
  out.rank = out.rank_low = out.rank_high = rank;
  const double edge = 0.81 / (rank * rank);
  out.why = {{"depth", 3.2, "m", 0.64, 0.5, "Invented (2026)"}, {"edge", 22.04, "%", edge, 0.5, "design choice"}};
  out.score = std::sqrt(0.64) * std::sqrt(edge);
  out.boat = boat;
  out.boat_depth = Metres(2.41);
  out.hold = "motor";
  out.approach = Degrees(359.97);
  out.target = target;
  out.bearing = true_bearing(projection, boat, target);
  out.cast = distance(boat, target);
  out.strike = {Metres(4.0), Metres(14.0)};
  out.target_depth = Metres(3.2);
  out.kinds = {kind};
  out.not_assessed = {"light"};
  out.presentations = {{"crankbait", Metres(1.5), Metres(3.0), "slow and steady"},
                       {"jerkbait", Metres(0.6), Metres(1.5), "long pauses"}};
  out.casts = 14;
  out.minutes = 12.5;
  out.cautions = {"A shoal lies 40 m to the west."};
  out.reason_words = "A steep edge beside deep water, with weeds on its top.";
  return out;
}

/// North past the east drop-off, cast to the right; the score is 0.64^0.5 x 0.49^0.5 = 0.56.
inline Pass pass(const std::string& phase, int rank, Line lane, const Projection& projection) {
  Pass out;
  out.id = id_at("pass", projection.to_lonlat(point_along(begun_at_north(lane), 0.5)));
  out.phase = phase;
  out.rank = rank;
  out.score = 0.56;
  out.lane = std::move(lane);
  out.length = length(out.lane);
  out.heading = true_bearing(projection, out.lane.front(), out.lane.back());
  out.cast_side = Side::right;
  out.cast = {Metres(14.5), Metres(19)};
  out.boat_depth = {Metres(4.1), Metres(4.9)};
  out.target_depth = {Metres(2.6), Metres(3.4)};
  out.kinds = {Kind::drop_off};
  out.feature_ids = {"drop-off-45.50000N-39.99783W"};
  out.places = 12;
  out.why = {{"depth", 3.05, "m", 0.64, 0.5, "Invented (2026) (mean of 12 places along the lane)"},
             {"edge", 22.04, "% grade", 0.49, 0.5, "design choice"}};
  out.not_assessed = {"light"};
  out.presentations = {{"crankbait", Metres(1.5), Metres(2.8), "slow and steady"}};
  out.casts = 13;
  out.minutes = 11;
  out.confidence = 0.8;
  out.cautions = {"Grey shoal lies 60 m to the west of the lane."};
  out.reason_words = "125 m to the north, casting to the right: a steep edge.";
  return out;
}

inline void set_stop(Plan& plan, const Options& options) {
  plan.season.advisory = {AdvisoryLevel::stop, {"water at 24.5 C is at or above the stop of 75 F"}, options.overridden};
  plan.season.no_spots = !options.overridden;
  if (options.overridden) plan.options.emplace_back("override-stop", "tagging survey");
  if (options.overridden) return;
  for (PhaseSpots& phase : plan.phases) {
    phase.spots.clear();
    phase.passes.clear();
  }
}

/// The plan. Lake and profile live as long as the program does, so that its pointers stay good.
inline Plan plan(const Options& options = {}) {
  static std::deque<Lake> lakes;
  static std::deque<Profile> profiles;
  const Lake& lake = lakes.emplace_back(bowl(options.centre));
  const Profile& pike = profiles.emplace_back(profile());
  const Phase* early = &pike.phases[0];
  const Phase* summer = &pike.phases[1];

  Plan out;
  out.lake_name = options.lake_name;
  out.lake = &lake;
  out.profile = &pike;
  out.features = features(options, lake.projection);
  PhaseSpots first{early,
                   {spot(early->name, 1, {140, 0}, {158, 4}, Kind::drop_off, lake.projection),
                    spot(early->name, 2, {-20, 190}, {-10, 205}, Kind::weed_line, lake.projection)},
                   ""};
  const PhaseSpots second{summer, {spot(summer->name, 1, {-160, -50}, {-178, -58}, Kind::wood, lake.projection)}, ""};
  first.passes = {pass(early->name, 1, {{140, -60}, {152, 0}, {138, 60}}, lake.projection)};
  out.phases = {first};
  out.season.phases = {early};
  if (!options.one_phase) {
    out.phases.push_back(second);
    out.season.phases.push_back(summer);
  } else {
    out.date = "2026-05-02";
    out.season.water_temp = Celsius(6.5);
    out.season.water_temp_source = "given";
    out.season.trend = Trend::rising;
    out.season.valid_for = "4 to 8 C (39 to 46 F), rising";
  }
  out.secchi = Metres(2.8);
  out.weed_depth = WeedDepth{Metres(4.03), Metres(3.42), Metres(6.72)};
  out.weed_source = "predicted";
  out.surface_text = "depths are below today's surface, 312.4 m";
  out.source = "Invented county survey";
  out.licence = "CC BY 4.0";
  out.surveyed = "1994";
  out.rules_text = "Single barbless hooks.";
  out.rules_source = "club handbook";
  out.rules_checked = "2026-03-01";
  out.cautions = standing_cautions(pike);
  out.notes = {"The depth error is not stated; 0.3 m is assumed."};
  out.not_assessed = {"oxygen"};
  out.inputs = {{"kestrel_mere.tif", std::string(64, 'a')}, {"wood.shp", std::string(64, 'b')}};
  out.options = {{"secchi", "2.8 m"}, {"spots", "10"}};
  out.units = options.units;
  if (options.stop) set_stop(out, options);
  return out;
}

}  // namespace castplan::sample
