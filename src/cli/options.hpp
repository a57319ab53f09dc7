// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "castplan/features/detect.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "castplan/io/raster.hpp"
#include "castplan/season/season.hpp"
#include "castplan/season/wind.hpp"
#include "castplan/spots/rank.hpp"
#include "castplan/write/plan.hpp"
#include "cli/gpx_options.hpp"

namespace CLI {
class App;
}

namespace castplan {

/// The options of `scout` as written; empty where not given.
struct ScoutWords {
  std::string lake;
  std::string unit, sense, surface, crs, shoreline;
  std::string date, species, species_file, water_temp, trend, phase, secchi, wind, cast, units = "metric";
  std::string draft, pool_relief, hump_relief, break_relief, break_grade;
  std::string out, formats, override_stop;
  GpxWords gpx;
  std::vector<std::string> compare;  ///< none or two
  int spots = 10;
  int seed = 1;
  int threads = 0;
  bool json = false, quiet = false;
};

/// Declares the options on the parser.
void declare_options(CLI::App& app, ScoutWords& words);
/// Only those that say of a bare raster what it does not say itself: --unit, --sense, --surface, --crs, --shoreline.
void declare_raster_options(CLI::App& app, ScoutWords& words);

/// The same, understood. Everything is checked before a file is opened; UsageError names option, value and remedy.
struct ScoutOptions {
  std::string lake;
  std::optional<DepthUnit> unit;
  std::optional<Sense> sense;
  std::string crs, shoreline;
  std::optional<Metres> surface;
  std::optional<Date> date;
  std::string species, species_file, phase, override_stop;
  std::optional<Celsius> water_temp;
  std::optional<Trend> trend;
  std::optional<Metres> secchi, draft;
  std::optional<Wind> wind;
  Units units = Units::metric;
  DetectOptions detect;
  SpotOptions spots;
  bool cast_given = false;
  /// The other side of a comparison; the first side is the date or the temperature above.
  struct Compare {
    std::string a_text, b_text;
    std::optional<Date> date;
    std::optional<Celsius> water_temp;
  };
  std::optional<Compare> compare;
  std::string out;
  std::vector<std::string> formats;  ///< names of the formats table
  GpxChoice gpx;
  std::string gpx_symbols;  ///< path of the table; empty: none
  int threads = 0;
  bool json = false, quiet = false;
  std::vector<std::pair<std::string, std::string>> result_options;  ///< as given, those that change the result, sorted
};
ScoutOptions understand(const ScoutWords& words);

/// The folder of the plan: --out, else "<lake>-plan".
std::string out_folder(const std::string& out, const std::string& lake);

}  // namespace castplan
