// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>

#include "castplan/geo/error.hpp"
#include "castplan/grid/lake.hpp"
#include "castplan/grid/sweep.hpp"
#include "castplan/io/depth_grid.hpp"
#include "castplan/write/folder.hpp"
#include "cli/grid_report.hpp"
#include "cli/interrupt.hpp"
#include "cli/option_values.hpp"
#include "cli/verb.hpp"

namespace castplan {

namespace {

struct GridWords {
  std::string lake, shoreline, columns, field, unit, sense, surface, crs, cell, transducer, out = "depth.tif", rejected;
  std::vector<std::string> soundings, contours;
  int threads = 0;
  bool json = false, quiet = false;
};

/// "x=lon,y=lat,depth=d" as the lake file's `columns`.
DepthColumns columns_of(const std::string& text) {
  DepthColumns columns;
  if (text.empty()) return columns;
  for (const std::string& part : CLI::detail::split(text, ',')) {
    const std::size_t at = part.find('=');
    const std::string key = part.substr(0, at), name = at == std::string::npos ? "" : part.substr(at + 1);
    std::string* const place = key == "x"       ? &columns.x
                               : key == "y"     ? &columns.y
                               : key == "depth" ? &columns.depth
                               : key == "track" ? &columns.track
                                                : nullptr;
    if (place == nullptr || name.empty()) {
      throw UsageError(
          fmt::format("--columns {}: '{}' is not one of x=NAME, y=NAME, depth=NAME, track=NAME", text, part));
    }
    *place = name;
  }
  return columns;
}

/// What holds for every file named on the command line.
template <class Options>
Options common(const GridWords& words, const std::string& path) {
  Options options;
  options.path = path;
  options.field = words.field;
  options.crs = words.crs;
  options.unit = given("--unit", words.unit, parse_depth_unit);
  options.sense = sense_given(words.sense);
  options.surface = given("--surface", words.surface, parse_length);
  return options;
}

void check(const GridWords& words) {
  const bool files = !words.soundings.empty() || !words.contours.empty();
  if (words.lake.empty() && !files) {
    throw UsageError("grid: nothing to grid; name a lake file, or --soundings FILE, or --contours FILE");
  }
  if (!words.lake.empty() &&
      (files || !words.shoreline.empty() || !words.columns.empty() || !words.field.empty() || !words.unit.empty() ||
       !words.sense.empty() || !words.crs.empty() || !words.surface.empty() || !words.transducer.empty())) {
    throw UsageError(
        fmt::format("{} is a lake file: of the options only --cell, --out and --rejected go with it; say "
                    "the rest in the file",
                    words.lake));
  }
}

LakeFile file_for(const GridWords& words) {
  LakeFile file;
  if (!words.lake.empty()) {
    if (!is_lake_file(words.lake)) {
      throw UsageError(fmt::format("{}: not a lake file (.toml); name soundings by --soundings, contours by --contours",
                                   words.lake));
    }
    file = read_lake_file(words.lake);
    if (file.soundings.empty() && file.contours.empty()) {
      throw InputError(fmt::format("{}: its depths are a raster already; nothing to grid", words.lake));
    }
  }
  for (const std::string& path : words.soundings) {
    auto options = common<SoundingOptions>(words, path);
    options.columns = columns_of(words.columns);
    options.transducer = given("--transducer", words.transducer, parse_length).value_or(Metres(0));
    file.soundings.push_back(std::move(options));
  }
  for (const std::string& path : words.contours) file.contours.push_back(common<ContourOptions>(words, path));
  if (!words.shoreline.empty()) file.shoreline = VectorOptions{words.shoreline, "", words.crs};
  if (const auto cell = given("--cell", words.cell, positive_length)) file.cell = cell;
  return file;
}

void grid(const GridWords& words) {
  check(words);
  const LakeFile file = file_for(words);
  set_threads(threads_given(words.threads));
  const bool show = !words.quiet && isatty(STDERR_FILENO) != 0;
  const SurveyedLake made = survey_lake(file, [&](std::string_view stage) {
    if (show) std::cerr << fmt::format("castplan: {} ...\n", stage);
  });
  if (!words.quiet) {
    for (const std::string& note : made.notes) std::cerr << "castplan: note: " << note << '\n';
  }
  const GridFigures figures = figures_of(made);
  const std::string tiff =
      depth_grid_tiff(made.surface.depth, made.surface.error, made.projection, grid_metadata(file, made, figures));
  finish_uninterrupted();
  if (!words.rejected.empty()) {
    replace_file(words.rejected, rejected_csv(made), "choose another place with --rejected");
  }
  replace_file(words.out, tiff, "choose another place with --out");
  if (words.json) {
    std::cout << grid_json(made, figures);
  } else if (!words.quiet) {
    std::cout << grid_report(made, figures, words.out, words.rejected);
  }
}

}  // namespace

std::function<void()> declare_grid(CLI::App& app) {
  auto words = std::make_shared<GridWords>();
  app.add_option("LAKE", words->lake, "a lake file (.toml) that names soundings or contours");
  app.add_option("--soundings", words->soundings, "points with a depth: CSV, XYZ, GPX, or any layer of points");
  app.add_option("--contours", words->contours, "lines of equal depth: any layer of lines or polygons");
  app.add_option("--shoreline", words->shoreline, "polygons of the water (default: closed contours of depth 0)");
  app.add_option("--columns", words->columns, "columns of a table, such as x=lon,y=lat,depth=d");
  app.add_option("--field", words->field, "attribute that holds the depth");
  app.add_option("--unit", words->unit, "depth unit: m, ft or fathom");
  app.add_option("--sense", words->sense, "depth (positive down), height (negative down) or elevation");
  app.add_option("--surface", words->surface, "elevation of the water (with --sense elevation)");
  app.add_option("--crs", words->crs, "coordinate system, where a file states none, such as EPSG:32615");
  app.add_option("--transducer", words->transducer, "depth of the instrument below the surface, added to soundings");
  app.add_option("--cell", words->cell, "side of a cell, such as 5m (default: from the lake's area)");
  app.add_option("--out", words->out, "the depth grid to write (default depth.tif)");
  app.add_option("--rejected", words->rejected, "write the soundings that are not used, with the reason, to this CSV");
  app.add_option("--threads", words->threads, "threads (default: all cores); never changes a result")
      ->check(CLI::Validator(not_whole, ""));
  app.add_flag("--json", words->json, "print one JSON object instead of the report");
  app.add_flag("--quiet", words->quiet, "no progress and no report");
  return [words] { grid(*words); };
}

}  // namespace castplan
