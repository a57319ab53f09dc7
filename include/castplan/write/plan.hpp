// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "castplan/features/detect.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "castplan/grid/lake.hpp"
#include "castplan/grid/observations.hpp"
#include "castplan/season/layers.hpp"
#include "castplan/season/odds.hpp"
#include "castplan/season/season.hpp"
#include "castplan/season/weeds.hpp"
#include "castplan/spots/compare.hpp"
#include "castplan/spots/spot.hpp"

namespace castplan {

/// How passes stand in GPX files: as routes with a waypoint at each turn, as tracks, both, or not at all.
enum class GpxLine { none, route, track, both };

/// usual: at most 10 letters, with the depth. brief: at most 6 up to 99 spots, what units take over a serial link,
/// without depth and phase. words: as long as it takes.
enum class GpxNames { usual, brief, words };

struct GpxChoice {
  GpxLine line = GpxLine::none;
  GpxNames names = GpxNames::usual;
  bool landings = false;           ///< a waypoint where each cast lands, too
  std::size_t most_in_route = 50;  ///< places; longer routes are cut. Common practice, no source
  /// What units draw, by what a waypoint is: spot, landing, pass, launch, hazard or closure. None is ours.
  std::map<std::string, std::string> symbols{};
};

/// What becomes of a plan's spots at another date or temperature. Only the plan itself has files of its own.
struct Comparison {
  struct Side {
    std::string text;  ///< as the user wrote it
    std::string date;  ///< YYYY-MM-DD or empty
    std::optional<Celsius> water_temp;
    std::vector<std::string> phases;  ///< by name
    Advisory advisory;
    bool no_spots = false;  ///< a stop that is not overridden
  };
  std::string kind;  ///< date, temperature
  Side a, b;         ///< the plan, and what it is compared with
  struct OfPhase {
    std::string before, after;  ///< names of the phases
    std::vector<SpotChange> changes;
  };
  std::vector<OfPhase> phases;     ///< none when either side is a stop
  std::vector<std::string> words;  ///< for people, whole sentences
};

/// A whole plan: all that any format says. Writers read it and return bytes; none of them decides anything.
struct Plan {
  std::string lake_name;
  const Lake* lake{};
  std::vector<Feature> features;
  std::optional<Scales> scales;          ///< of the search for them
  std::vector<PhaseSpots> phases;        ///< in the order of the year
  std::optional<Comparison> comparison;  ///< with another date or temperature, where one was asked for

  // the conditions that the plan holds for
  std::string date;  ///< YYYY-MM-DD or empty
  const Profile* profile{};
  SeasonAnswer season;
  std::optional<Metres> secchi;
  std::optional<WeedDepth> weed_depth;
  std::string weed_stage;   ///< by the calendar, of a plan of one phase with weeds: standing, dying...; else empty
  std::string weed_source;  ///< predicted, observed, fitted, mapped or empty
  LayerAnswer layers;
  std::string sun_text, moon_text;   ///< for people, with the time zone named; empty without a date
  std::optional<Wind> wind;          ///< that the plan is made for
  std::string wind_text;             ///< for people; empty where no wind is known
  std::optional<Odds> odds;          ///< of published catch rates; none at a stop, and where none is known
  std::string odds_text, odds_line;  ///< for people, or that none is known; empty at a stop
  /// When to be back on land, by the lake's clock: "20:42 (Etc/GMT+3, UTC-03:00)"; empty without a date and a sunset.
  std::string be_back;
  bool morning_only = false;  ///< the water is warm: `be_back` is when to stop
  /// ISO 8601, what documents carry as their date: of the source or of the plan, never of the writing.
  std::string document_date = "2000-01-01T00:00:00Z";

  // what every output carries
  std::string surface_text;                             ///< the water surface that depths refer to
  std::string source, licence, surveyed;                ///< of the depths
  std::string rules_text, rules_source, rules_checked;  ///< the user's own words
  std::vector<std::string> cautions;                    ///< for everything that goes on the water
  std::vector<std::string> notes;                       ///< warnings that change the answer
  std::vector<std::string> not_assessed;                ///< layers that were not given

  // provenance
  struct Input {
    std::string name, sha256;
  };
  std::vector<Input> inputs;
  std::vector<std::pair<std::string, std::string>> options;  ///< those that change the result, sorted
  Units units = Units::metric;                               ///< what people read; data files stay SI
  GpxChoice gpx{};
};

/// One file of a plan, by name without its folder, and its bytes.
struct OutputFile {
  std::string name;
  std::string bytes;
};

/// One row a format; help, --formats and blanket tests are made from it.
struct Format {
  std::string_view name;  ///< as --formats takes it
  std::string_view what;  ///< one line for help
  std::vector<OutputFile> (*write)(const Plan&);
  bool by_default = true;  ///< written when nothing is chosen
};
std::span<const Format> formats();

/// The version of the program that stands in every file.
std::string_view version();

/// The cautions that everything on the water carries: not for navigation, life jacket and cold water, wind, the
/// fish's welfare, local rules first.
std::vector<std::string> standing_cautions(const Profile& profile);

}  // namespace castplan
