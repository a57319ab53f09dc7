// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/options.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <cmath>
#include <filesystem>

#include "castplan/geo/error.hpp"
#include "castplan/io/lake_file.hpp"
#include "castplan/write/plan.hpp"
#include "cli/option_values.hpp"
#include "cli/what_if.hpp"

namespace castplan {

namespace {

double parse_percent(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  const std::string_view rest(end, static_cast<std::size_t>(text.data() + text.size() - end));
  if (error != std::errc() || (rest != "%" && rest != " %") || !(value > 0) || !std::isfinite(value)) {
    throw InputError("a grade is a positive number with its sign, such as 15%");
  }
  return value;
}

// "12m-25m"
std::pair<Metres, Metres> parse_cast(std::string_view text) {
  const auto dash = text.find('-');
  if (dash == std::string_view::npos) throw InputError("a range of two lengths is needed, such as 12m-25m");
  const std::pair range(positive_length(text.substr(0, dash)), positive_length(text.substr(dash + 1)));
  if (range.first < Metres(8) || range.second < range.first || range.second > Metres(60)) {
    throw InputError("a cast is 8 to 60 m long, the shorter length first");
  }
  return range;
}

std::vector<std::string> chosen_formats(const std::string& text) {
  std::vector<std::string_view> known;
  for (const Format& format : formats()) known.push_back(format.name);
  std::vector<std::string> chosen;
  if (text.empty() || text == "all") {
    for (const Format& format : formats()) {
      if (!text.empty() || format.by_default) chosen.emplace_back(format.name);
    }
    return chosen;
  }
  for (const std::string& name : CLI::detail::split(text, ',')) {
    if (name.empty()) {
      throw UsageError(
          fmt::format("--formats {}: a name is missing beside a comma; known are {}", text, listed(known)));
    }
    one_of("--formats", name, known);
    chosen.push_back(name);
  }
  // the summary says what a folder holds, so no plan is without it
  if (std::find(chosen.begin(), chosen.end(), "json") == chosen.end()) chosen.emplace_back("json");
  return chosen;
}

std::string formats_help() {
  std::vector<std::string_view> usual, more;
  for (const Format& format : formats()) (format.by_default ? usual : more).push_back(format.name);
  return fmt::format("comma-separated, or all (default: {}; also: {})", fmt::join(usual, ","), fmt::join(more, ","));
}

std::vector<std::pair<std::string, std::string>> result_options(const ScoutWords& words) {
  const auto file_name = [](const std::string& path) { return std::filesystem::path(path).filename().string(); };
  std::vector<std::pair<std::string, std::string>> all{{"break-grade", words.break_grade},
                                                       {"break-relief", words.break_relief},
                                                       {"cast", words.cast},
                                                       {"compare", fmt::format("{}", fmt::join(words.compare, " "))},
                                                       {"crs", words.crs},
                                                       {"date", words.date},
                                                       {"draft", words.draft},
                                                       {"hump-relief", words.hump_relief},
                                                       {"override-stop", words.override_stop},
                                                       {"phase", words.phase},
                                                       {"pool-relief", words.pool_relief},
                                                       {"secchi", words.secchi},
                                                       {"sense", words.sense},
                                                       {"shoreline", file_name(words.shoreline)},
                                                       {"seed", words.seed == 1 ? "" : std::to_string(words.seed)},
                                                       {"species", words.species},
                                                       {"species-file", file_name(words.species_file)},
                                                       {"spots", words.spots == 10 ? "" : std::to_string(words.spots)},
                                                       {"surface", words.surface},
                                                       {"trend", words.trend},
                                                       {"unit", words.unit},
                                                       {"units", words.units == "metric" ? "" : words.units},
                                                       {"water-temp", words.water_temp},
                                                       {"wind", words.wind}};
  const auto gpx = gpx_result_options(words.gpx);
  all.insert(all.end(), gpx.begin(), gpx.end());
  std::erase_if(all, [](const auto& option) { return option.second.empty(); });
  std::sort(all.begin(), all.end());
  return all;
}

void check_raster_options(const ScoutWords& words) {
  if (!is_lake_file(words.lake)) return;
  for (const auto& [option, value] :
       {std::pair("--unit", words.unit), std::pair("--sense", words.sense), std::pair("--surface", words.surface),
        std::pair("--crs", words.crs), std::pair("--shoreline", words.shoreline)}) {
    if (!value.empty()) {
      throw UsageError(
          fmt::format("{} goes with a bare raster; {} is a lake file, so say it there", option, words.lake));
    }
  }
}

void understand_features(const ScoutWords& words, ScoutOptions& options) {
  DetectOptions& detect = options.detect;
  detect.pool_relief = given("--pool-relief", words.pool_relief, positive_length).value_or(detect.pool_relief);
  detect.hump_relief = given("--hump-relief", words.hump_relief, positive_length).value_or(detect.hump_relief);
  detect.break_relief = given("--break-relief", words.break_relief, positive_length).value_or(detect.break_relief);
  detect.break_grade_pct = given("--break-grade", words.break_grade, parse_percent).value_or(detect.break_grade_pct);
  options.draft = given("--draft", words.draft, positive_length);
  if (const auto cast = given("--cast", words.cast, parse_cast)) {
    options.spots.cast_from = cast->first;
    options.spots.cast_to = cast->second;
    options.cast_given = true;
  }
  if (words.spots < 1 || words.spots > 200) {
    throw UsageError(fmt::format("--spots {}: give a whole number from 1 to 200", words.spots));
  }
  options.spots.most = words.spots;
  if (words.seed < 0) throw UsageError(fmt::format("--seed {}: give a whole number, 0 or more", words.seed));
  options.spots.seed = static_cast<std::uint64_t>(words.seed);
}

}  // namespace

void declare_raster_options(CLI::App& app, ScoutWords& words) {
  const char* raster = "For a bare raster";
  app.add_option("--unit", words.unit, "depth unit: m, ft or fathom")->group(raster);
  app.add_option("--sense", words.sense, "depth (positive down), height (negative down) or elevation")->group(raster);
  app.add_option("--surface", words.surface, "elevation of the water, such as 312.4m (with --sense elevation)")
      ->group(raster);
  app.add_option("--crs", words.crs, "coordinate system, where the file states none, such as EPSG:32615")
      ->group(raster);
  app.add_option("--shoreline", words.shoreline, "vector file that clips the raster")->group(raster);
}

void declare_options(CLI::App& app, ScoutWords& words) {
  app.add_option("LAKE", words.lake, "a lake file (.toml) or a depth raster")->required();
  app.add_option("--out", words.out, "folder for the plan (default: <lake>-plan)");
  app.add_option("--date", words.date, "day to plan for, YYYY-MM-DD");
  app.add_option("--species", words.species,
                 "species profile (default: muskellunge, else the first that the lake holds)");
  app.add_option("--species-file", words.species_file,
                 "a profile of your own (TOML; start from `castplan species NAME`)");
  app.add_option("--water-temp", words.water_temp, "surface temperature of the main lake, such as 58F or 14.5C");
  app.add_option("--trend", words.trend, "rising or falling");
  app.add_option("--phase", words.phase, "plan one phase by name, where no temperature is known");
  app.add_option("--secchi", words.secchi, "Secchi depth, such as 9ft or 2.7m");
  app.add_option("--wind", words.wind,
                 "wind to plan for, such as \"12 mph from 230\" or \"5 m/s gusting 9 m/s from NW\"");
  app.add_option("--cast", words.cast, "shortest and longest cast (default 12m-25m)");
  const CLI::Validator whole(not_whole, "");
  app.add_option("--spots", words.spots, "spots a phase (default 10)")->check(whole);
  app.add_option("--seed", words.seed, "seed of the draws that rank intervals come from (default 1)")->check(whole);
  app.add_option("--compare", words.compare,
                 "A B, two dates or two temperatures: the plan is that of A, and it is said which of its spots stay, "
                 "rise, fall or leave at B and which come; the files hold the plan of A with that list")
      ->expected(2);
  app.add_option("--units", words.units, "what people read: metric or imperial");
  app.add_option("--formats", words.formats, formats_help());
  app.add_option("--threads", words.threads, "threads (default: all cores); never changes a result")->check(whole);
  app.add_flag("--json", words.json, "print one JSON object instead of the report");
  app.add_flag("--quiet", words.quiet, "no progress and no report");
  app.add_option("--override-stop", words.override_stop,
                 "plan in spite of a stop; the reason is printed on everything");
  declare_gpx_options(app, words.gpx);
  declare_raster_options(app, words);
  const char* features = "What counts as a feature (design choices; fish do not grow with the lake)";
  app.add_option("--break-relief", words.break_relief, "least fall of a drop-off within 30 m (default 1.2m)")
      ->group(features);
  app.add_option("--break-grade", words.break_grade, "least grade of a drop-off (default 15%)")->group(features);
  app.add_option("--hump-relief", words.hump_relief, "least rise of a hump (default 1m)")->group(features);
  app.add_option("--pool-relief", words.pool_relief, "least depth of a second pool below its sill (default 1m)")
      ->group(features);
  app.add_option("--draft", words.draft, "draft of the boat (default 0.45m)")->group(features);
}

ScoutOptions understand(const ScoutWords& words) {
  ScoutOptions options;
  options.lake = words.lake;
  check_raster_options(words);
  options.unit = given("--unit", words.unit, parse_depth_unit);
  options.sense = sense_given(words.sense);
  options.surface = given("--surface", words.surface, parse_length);
  options.crs = words.crs;
  options.shoreline = words.shoreline;
  options.date = given("--date", words.date, parse_date);
  if (words.species_file.empty() && !words.species.empty()) static_cast<void>(species(words.species));
  options.species = words.species;
  options.species_file = words.species_file;
  options.water_temp = given("--water-temp", words.water_temp, parse_temperature);
  understand_compare(words, options);
  one_of("--trend", words.trend, {"rising", "falling"});
  if (!words.trend.empty()) options.trend = words.trend == "rising" ? Trend::rising : Trend::falling;
  options.phase = words.phase;
  options.override_stop = words.override_stop;
  options.secchi = given("--secchi", words.secchi, positive_length);
  options.wind = given("--wind", words.wind, parse_wind);
  one_of("--units", words.units, {"metric", "imperial"});
  options.units = words.units == "imperial" ? Units::imperial : Units::metric;
  understand_features(words, options);
  options.gpx = understand_gpx(words.gpx);
  options.gpx_symbols = words.gpx.symbols;
  options.formats = chosen_formats(words.formats);
  options.threads = threads_given(words.threads);
  options.json = words.json;
  options.quiet = words.quiet;
  options.out = out_folder(words.out, words.lake);
  options.result_options = result_options(words);
  return options;
}

std::string out_folder(const std::string& out, const std::string& lake) {
  return out.empty() ? std::filesystem::path(lake).stem().string() + "-plan" : out;
}

}  // namespace castplan
