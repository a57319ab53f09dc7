// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <initializer_list>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "castplan/features/detect.hpp"
#include "castplan/io/load.hpp"
#include "castplan/spots/rank.hpp"

namespace castplan::real {

/// Folder of a real lake, read in place; none, and a line in the log, where it or one of the files is not there. A test
/// then returns: one file of tests asks for one folder and one list, so that all of its ctest entry is skipped or none.
inline std::optional<std::string> folder(const std::string& name, std::initializer_list<const char*> files) {
  const char* set = std::getenv("CASTPLAN_REAL_LAKES");
  const std::string root = set && *set ? set : CASTPLAN_SOURCE_DIR "/../shared/data";
  const std::string path = root + "/" + name;
  std::string missing = std::filesystem::is_directory(path) ? "" : path;
  for (const char* file : files) {
    if (missing.empty() && !std::filesystem::exists(path + "/" + file)) missing = path + "/" + file;
  }
  if (missing.empty()) return path;
  fmt::print("SKIPPED: real lake {}: {} is not there\n", name, missing);
  std::fflush(stdout);
  WARN("skipped: " << missing << " is not there");
  return std::nullopt;
}

/// Prints the outside value, ours and their difference; returns that, in percent of the outside value.
inline double percent_off(std::string_view what, double outside, double measured, std::string_view unit) {
  const double off = 100.0 * (measured - outside) / outside;
  fmt::print("{:<58} outside {:>14.6g}  measured {:>14.6g} {:<4} {:+.3f} %\n", what, outside, measured, unit, off);
  std::fflush(stdout);
  return off;
}

/// Prints what was measured where there is no outside value for it.
template <class... Args>
void note(fmt::format_string<Args...> text, Args&&... args) {
  fmt::print("{}\n", fmt::format(text, std::forward<Args>(args)...));
  std::fflush(stdout);
}

inline LakeFile raster_file(const std::string& path, std::optional<DepthUnit> unit, Sense sense = Sense::depth) {
  LakeFile file;
  file.raster.path = path;
  file.raster.unit = unit;
  file.raster.sense = sense;
  return file;
}

inline std::vector<Feature> features_of(const Lake& lake, std::optional<WeedKnowledge> weeds = {}) {
  return find_features(Ground{lake, {}, {}, weeds, {}, {}, {}}, {});
}

inline std::vector<Feature> of_kind(const std::vector<Feature>& features, Kind kind) {
  std::vector<Feature> found;
  for (const Feature& feature : features) {
    if (feature.kind == kind) found.push_back(feature);
  }
  return found;
}

/// A plain CSV table, without quotation marks: rows by column name.
inline std::vector<std::map<std::string, std::string>> table(const std::string& path) {
  std::ifstream in(path);
  if (!in) throw std::runtime_error(path + ": cannot be read");
  const auto fields = [](std::string line) {
    if (!line.empty() && line.back() == '\r') line.pop_back();
    std::vector<std::string> out(1);
    for (const char letter : line) {
      if (letter == ',') out.emplace_back();
      if (letter != ',') out.back() += letter;
    }
    return out;
  };
  std::string line;
  std::getline(in, line);
  const auto names = fields(line);
  std::vector<std::map<std::string, std::string>> rows;
  while (std::getline(in, line)) {
    const auto values = fields(line);
    if (values.size() != names.size()) throw std::runtime_error(path + ": " + line);
    rows.emplace_back();
    for (std::size_t i = 0; i < names.size(); ++i) rows.back()[names[i]] = values[i];
  }
  return rows;
}

/// Middle one of an odd number of values, the upper of the two middle ones of an even number.
inline double median(std::vector<double> values) {
  if (values.empty()) throw std::runtime_error("no values to take the median of");
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

/// Spots of every fishable phase of the muskellunge's year, in the order of the year.
inline std::vector<PhaseSpots> spots_of(const Lake& lake, const std::vector<Feature>& features, int most) {
  SpotOptions options;
  options.most = most;
  std::vector<PhaseSpots> out;
  for (const Phase& phase : species("muskellunge").phases) {
    if (phase.fishable) out.push_back(rank_spots(lake, features, phase, options));
  }
  return out;
}

}  // namespace castplan::real
