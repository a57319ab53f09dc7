// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <vector>

#include "castplan/io/inspect.hpp"
#include "io/rasters.hpp"
#include "support/programs.hpp"

namespace castplan::rasters {

/// The one finding of a code; fails when there is none, or several.
inline Finding found(const Inspection& in, const std::string& code) {
  std::string codes;
  std::vector<Finding> all;
  for (const Finding& one : in.findings) {
    codes += one.code + ": " + one.text + "\n";
    if (one.code == code) all.push_back(one);
  }
  INFO(codes);
  REQUIRE(all.size() == 1);
  return all.front();
}

inline long long count(const Inspection& in, const std::string& code) {
  return std::count_if(in.findings.begin(), in.findings.end(), [&](const Finding& one) { return one.code == code; });
}

inline InspectOptions of(const std::string& path) {
  InspectOptions options;
  options.path = path;
  return options;
}

/// The lake of rasters.hpp with a change to some cells; land is no data.
inline std::string changed_lake(const programs::Scratch& scratch, const std::string& name,
                                const std::function<double(int col, int row, double depth)>& change, Spec spec = {}) {
  spec.nodata = spec.nodata.value_or(-9999);
  const Value lake = water_only(lake_on(spec), *spec.nodata);
  write(scratch.path(name), spec,
        [&](double c, double r) { return change(static_cast<int>(c), static_cast<int>(r), lake(c, r)); });
  return scratch.path(name);
}
inline double as_it_is(int, int, double depth) { return depth; }

/// A number behind a word in what a program printed.
inline double number_after(const std::string& text, const std::string& word) {
  const auto at = text.find(word);
  REQUIRE(at != std::string::npos);
  return std::stod(text.substr(at + word.size()));
}

inline std::string geojson(const programs::Scratch& scratch, const std::string& name,
                           const std::vector<std::pair<std::string, std::string>>& features) {
  std::string text = R"({"type":"FeatureCollection","features":[)";
  for (std::size_t i = 0; i < features.size(); ++i) {
    text += (i == 0 ? "" : ",") + std::string(R"({"type":"Feature","properties":{"depth":)") + features[i].second +
            R"(},"geometry":)" + features[i].first + "}";
  }
  return scratch.write(name, text + "]}");
}

inline const std::string kSquare =
    R"({"type":"Polygon","coordinates":[[[-39.201,45.499],[-39.199,45.499],[-39.199,45.501],[-39.201,45.501],[-39.201,45.499]]]})";
inline const std::string kBowTie =
    R"({"type":"Polygon","coordinates":[[[-39.201,45.499],[-39.199,45.501],[-39.199,45.499],[-39.201,45.501],[-39.201,45.499]]]})";

}  // namespace castplan::rasters
