// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>

#include "castplan/geo/error.hpp"
#include "castplan/io/lake_file.hpp"
#include "castplan/write/folder.hpp"
#include "cli/inspect_report.hpp"
#include "cli/interrupt.hpp"
#include "cli/options.hpp"
#include "cli/verb.hpp"

namespace castplan {

namespace {

struct InspectWords {
  ScoutWords lake;
  std::string write_lake;
};

InspectOptions understood(const InspectWords& words) {
  const ScoutOptions options = understand(words.lake);
  if (!words.write_lake.empty() && is_lake_file(words.lake.lake)) {
    throw UsageError(fmt::format("--write-lake drafts a lake file, and {} is one already", words.lake.lake));
  }
  return {options.lake, options.unit, options.sense, options.surface, options.crs, options.shoreline};
}

constexpr std::string_view kRemedy = "choose another name with --write-lake";

void look(const InspectWords& words) {
  const InspectOptions options = understood(words);
  // before the work, not after it
  if (std::error_code none; !words.write_lake.empty() && std::filesystem::exists(words.write_lake, none)) {
    throw OutputError(fmt::format("{}: is there already and is not overwritten; {}", words.write_lake, kRemedy));
  }
  const Inspection found = inspect(options);
  if (!words.write_lake.empty()) {
    const std::string folder = std::filesystem::path(words.write_lake).parent_path().string();
    const std::string draft = drafted_lake_file(found, options, folder);
    finish_uninterrupted();
    write_new_file(words.write_lake, draft, kRemedy);
  }
  if (words.lake.json) {
    std::cout << inspect_json(found);
  } else if (!words.lake.quiet) {
    std::cout << inspect_report(found);
    if (!words.write_lake.empty()) std::cout << fmt::format("Drafted {}.\n", words.write_lake);
  }
}

}  // namespace

std::function<void()> declare_inspect(CLI::App& app) {
  auto words = std::make_shared<InspectWords>();
  app.add_option("LAKE", words->lake.lake, "a lake file (.toml), a raster, a vector layer or a table")->required();
  app.add_option("--write-lake", words->write_lake, "draft a lake file with what could be established");
  app.add_flag("--json", words->lake.json, "print one JSON object instead of the report");
  app.add_flag("--quiet", words->lake.quiet, "no report");
  declare_raster_options(app, words->lake);
  return [words] { look(*words); };
}

}  // namespace castplan
