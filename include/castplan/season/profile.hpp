// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "castplan/geo/quantity.hpp"
#include "castplan/terrain/habitat.hpp"

namespace castplan {

/// Where a number comes from, printed wherever the number is.
struct Source {
  std::string text;  ///< author and year, or "common practice, no source"
  std::string mark;  ///< published, common-practice, design, memory
};

template <class T>
struct Sourced {
  T value{};
  Source source;
};

/// Straight lines between points (x ascending), level beyond the ends. Empty: 1 everywhere.
struct Curve {
  std::vector<std::pair<double, double>> points;
  Source source;
  [[nodiscard]] double operator()(double x) const;
};

enum class LureClass { inline_spinner, crankbait, soft_plastic, jerkbait, topwater };
std::string_view name_of(LureClass lure);  ///< "in-line spinner", "crankbait", "soft plastic", "jerkbait", "topwater"

struct Lure {
  LureClass lure{};
  std::string kind;         ///< empty, or deep, shallow, glide...
  Metres run_from, run_to;  ///< below the surface
  std::string retrieve;     ///< one phrase
  Source source;
};

/// What a spot is judged by; the names stand in `why`.
enum class Factor { depth, edge, cover, deep_water, meeting_edges, light, waves, weed_edge };
inline constexpr std::size_t kFactors = 8;
std::string_view name_of(Factor factor);

enum class Trend { rising, falling };

/// One phase of the species' year. Temperature intervals are half-open, [from, to); a side with no interval does not
/// occur in that trend. Open ends are infinite. The phase named "spawn" is the one that bay readings and the memory of
/// a series count for. A phase that is not fishable still carries curves, weights and lures (its own, or those of the
/// phase that the profile names in `ranked_as`), for the case that a stop is set aside; skip it otherwise.
struct Phase {
  struct Interval {
    Celsius from;
    Celsius to;
  };
  std::string name;   ///< pre-spawn
  std::string title;  ///< Pre-spawn
  std::optional<Interval> rising, falling;
  std::vector<std::pair<std::string, Source>> interval_sources;  ///< "rising from", ...
  bool fishable = true;                                          ///< false: features but no spots
  std::string stop_reason;                                       ///< for people, when not fishable
  std::string look_again;                                        ///< when to look again
  std::string what;                                              ///< what the fish does, one or two sentences
  std::string where;                                             ///< where to look, one sentence
  Source prose_source;            ///< of the numbers in the sentences above; empty when they have none
  Curve depth;                    ///< suitability of the depth that is fished, metres
  Curve depth_below_thermocline;  ///< takes its place where there is one: metres below it, negative above; or empty
  Curve depth_below_weed_edge;    ///< of the same depth, counted from the outside edge of standing weeds; or empty
  double weed_edge_weight{};      ///< for that, where the edge is known: the others share what it leaves
  Metres weed_edge{};             ///< where it is known: its depth
  Curve edge_grade;               ///< of the grade of a drop-off, percent
  Curve weed_density;             ///< of the density of a weed edge
  Curve deep_water;               ///< of the distance from the target to water at least 2 m deeper, metres
  Curve cover;                    ///< of the distance to wood, rock or placed cover, metres
  Curve light;                    ///< of the per cent of the surface's light at the target; only where clarity counts
  double light_lost{};            ///< 1/m, for that; 0: not known
  Curve meeting;                  ///< of the number of kinds of edge and cover within a cast
  Curve waves;            ///< of the height of the waves at the target, metres; only where a wind is known; or empty
  double waves_weight{};  ///< for that: the others share what it leaves
  std::vector<std::pair<Factor, Sourced<double>>> weights;  ///< sum 1
  std::vector<Lure> lures;                                  ///< in order of preference
};

/// Where a species is likely to spawn, as far as the depths can tell: a place to leave alone.
struct SpawningGround {
  Sourced<Celsius> free_from;  ///< from here on (below it, where the spawn falls in autumn) it carries spots again
  Habitat habitat;
  std::string reason;                                   ///< for people, one sentence
  std::vector<std::pair<std::string, Source>> sources;  ///< of each threshold, by its key
};

/// Fish and hours of one published survey of anglers, as printed; the rate is worked out from them.
struct CatchSurvey {
  double fish{};
  double hours{};       ///< angler-hours: two anglers for an hour are two
  std::string counted;  ///< what counted, where not every fish: "fish of 34 in and more"
  Source source;
};

struct Profile {
  std::string name;   ///< muskellunge
  std::string title;  ///< Muskellunge
  std::string latin;
  std::vector<Phase> phases;  ///< in the order of the year
  std::optional<Sourced<Celsius>> caution_from;
  std::optional<Sourced<Celsius>> stop_from;          ///< kept as written, 75 F
  std::string stop_text;                              ///< "75 F", as written
  std::optional<Sourced<Celsius>> optimum;            ///< where adults are found when they can choose
  std::optional<Sourced<Metres>> deep_release;        ///< fish that are hooked deeper may not recover
  std::optional<Sourced<double>> least_oxygen;        ///< mg/l, where not the usual limit
  std::optional<Sourced<Metres>> reach;               ///< deepest water that a lure is cast for, where not the usual
  std::optional<SpawningGround> spawning;             ///< none: no ground is drawn
  std::vector<CatchSurvey> catch_surveys;             ///< none: no published catch rate is known
  std::vector<std::string> handling;                  ///< welfare advice, one sentence each with its source in brackets
  std::vector<std::pair<std::string, Source>> facts;  ///< background that decides nothing
  std::vector<std::string> unverified;                ///< numbers from memory, named
  std::string text;                                   ///< the TOML itself, for printing
};

/// The built-in profiles, by name. One TOML file each in src/season/species.
std::span<const std::string_view> species_names();

/// A built-in profile. Throws UsageError with the nearest name for an unknown one.
const Profile& species(std::string_view name);

/// A profile from TOML text; where names the file in messages. Throws InputError: what is missing or wrong, where.
/// Checks that every temperature from 0 to 35 C falls in exactly one phase in each trend, that weights sum to 1, that
/// curves ascend and stay in 0 to 1, and that every number has a source and a known mark.
Profile read_profile(std::string_view toml, const std::string& where);

/// The one phase of a temperature and a trend. Temperatures beyond the profile's ends belong to the end phases. A
/// temperature counts as having reached a limit when it is within 1e-9 C of it, so that 46.4 F is 8 C. Requires a
/// number (not NaN).
const Phase& phase_at(const Profile& profile, Celsius temperature, Trend trend);

const Phase* phase_named(const Profile& profile, std::string_view name);  ///< nullptr when there is none

}  // namespace castplan
