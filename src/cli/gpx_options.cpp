// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/gpx_options.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <filesystem>
#include <sstream>

#include "castplan/geo/error.hpp"
#include "cli/option_values.hpp"
#include "cli/text_of.hpp"

namespace castplan {
namespace {

constexpr std::array<std::string_view, 6> kTypes{"spot", "landing", "pass", "launch", "hazard", "closure"};

std::string trimmed(const std::string& text) {
  const std::size_t first = text.find_first_not_of(" \t\r");
  return first == std::string::npos ? "" : text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

}  // namespace

void declare_gpx_options(CLI::App& app, GpxWords& words) {
  const char* group = "GPX files";
  app.add_option("--gpx-line", words.line, "passes too: route (a waypoint at each turn), track or both")->group(group);
  app.add_option("--gpx-names", words.names,
                 "usual (10 letters: rank, what is fished, depth), brief (6 letters, without depth) or words")
      ->group(group);
  app.add_flag("--gpx-landings", words.landings, "a waypoint where each cast lands, too")->group(group);
  app.add_option("--gpx-split", words.split, "most places of a route; longer ones are cut (default 50)")->group(group);
  app.add_option(
         "--gpx-symbols", words.symbols,
         "a table of your unit's own symbols, a line each: spot,NAME; also landing, pass, launch, hazard, closure")
      ->group(group);
}

GpxChoice understand_gpx(const GpxWords& words) {
  one_of("--gpx-line", words.line, {"route", "track", "both"});
  one_of("--gpx-names", words.names, {"usual", "brief", "words"});
  if (words.split < 2) {
    throw UsageError(
        fmt::format("--gpx-split {}: a route has two places or more, such as --gpx-split 50", words.split));
  }
  GpxChoice choice;
  choice.line = words.line == "route"   ? GpxLine::route
                : words.line == "track" ? GpxLine::track
                : words.line == "both"  ? GpxLine::both
                                        : GpxLine::none;
  choice.names = words.names == "brief" ? GpxNames::brief : words.names == "words" ? GpxNames::words : GpxNames::usual;
  choice.landings = words.landings;
  choice.most_in_route = static_cast<std::size_t>(words.split);
  return choice;
}

std::vector<std::pair<std::string, std::string>> gpx_result_options(const GpxWords& words) {
  return {{"gpx-landings", words.landings ? "yes" : ""},
          {"gpx-line", words.line},
          {"gpx-names", words.names == "usual" ? "" : words.names},
          {"gpx-split", words.split == 50 ? "" : std::to_string(words.split)},
          {"gpx-symbols", std::filesystem::path(words.symbols).filename().string()}};
}

std::map<std::string, std::string> read_symbols(const std::string& path) {
  std::map<std::string, std::string> symbols;
  std::istringstream lines(text_of(path));
  int number = 0;
  for (std::string line; std::getline(lines, line);) {
    ++number;
    const std::string text = trimmed(line);
    if (text.empty() || text == "type,symbol") continue;
    const std::size_t comma = text.find(',');
    const std::string type = trimmed(text.substr(0, comma));
    const std::string symbol = comma == std::string::npos ? "" : trimmed(text.substr(comma + 1));
    const bool known = std::find(kTypes.begin(), kTypes.end(), type) != kTypes.end();
    if (!known || symbol.empty() || !symbols.emplace(type, symbol).second) {
      throw InputError(
          fmt::format("{}, line {}: \"{}\"; expected what a waypoint is ({}), each once, a comma and the "
                      "name of a symbol, such as spot,Buoy",
                      path, number, text, fmt::join(kTypes, ", ")));
    }
  }
  return symbols;
}

}  // namespace castplan
