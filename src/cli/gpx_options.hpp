// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "castplan/write/plan.hpp"

namespace CLI {
class App;
}

namespace castplan {

/// The options of GPX files as written; empty where not given.
struct GpxWords {
  std::string line, names, symbols;
  int split = 50;
  bool landings = false;
};

void declare_gpx_options(CLI::App& app, GpxWords& words);

/// All but the symbols, whose file is read later. UsageError names option, value and remedy.
GpxChoice understand_gpx(const GpxWords& words);

/// Those that change the result, as given.
std::vector<std::pair<std::string, std::string>> gpx_result_options(const GpxWords& words);

/// A table of two columns, what a waypoint is and what the unit calls the symbol: `spot,Buoy`. A first line
/// `type,symbol` is passed over, as are empty ones. Throws InputError: file, line, what was found, what is known.
std::map<std::string, std::string> read_symbols(const std::string& path);

}  // namespace castplan
