// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <catch2/catch.hpp>
#include <iterator>
#include <map>
#include <regex>
#include <string>

#include "cli/castplan_run.hpp"
#include "support/pdf.hpp"

namespace castplan::programs {

inline std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

/// Features of one kind in a plan's folder.
inline nlohmann::json features_of_kind(const std::string& folder, const std::string& kind) {
  nlohmann::json found = nlohmann::json::array();
  const nlohmann::json all = json_in(folder + "/features.geojson")["features"];
  for (const auto& each : all) {
    if (each["properties"]["kind"] == kind) found.push_back(each);
  }
  return found;
}

/// How many spots each file of a plan carries, by reading every file back.
inline std::map<std::string, std::size_t> spots_by_file(const std::string& folder) {
  std::map<std::string, std::size_t> spots;
  for (const auto& [name, bytes] : files_in(folder)) {
    if (name == "spots.geojson" || name == "passes.geojson")
      spots[name] = nlohmann::json::parse(bytes)["features"].size();
    if (name == "features.geojson") {
      spots[name] = 0;
      const auto features = nlohmann::json::parse(bytes);
      for (const auto& feature : features["features"]) {
        spots[name] += feature["properties"]["kind"] == "spot" ? 1 : 0;
      }
    }
    if (name == "summary.json") {
      const auto counts = nlohmann::json::parse(bytes)["counts"];
      spots[name] = counts["spot"].get<std::size_t>();
      spots["passes of the summary"] = counts["pass"].get<std::size_t>();
    }
    if (name == "spots.csv" || name == "log.csv") spots[name] = count_of(bytes, "\r\n") - 1;
    if (name.ends_with(".gpx")) spots["gpx"] += count_of(bytes, "<type>spot</type>");
    // an id names a spot wherever it stands: in a button, a row, a script or a comment
    if (name == "map.html") spots[name] = count_of(bytes, "spot-45.");
    if (name == "map.html") spots["passes of the page"] = count_of(bytes, "pass-45.");
    // the sheet has no ids: a row gives a bearing, or where several phases are planned labels such as B1
    if (name == "sheet.pdf") {
      const std::string text = castplan::pdf::text_of(folder + "/" + name);
      const std::regex label("\\b[A-Z][0-9]+\\b");
      const std::sregex_iterator labels(text.begin(), text.end(), label);
      spots[name] = count_of(text, "\xC2\xB0 true") + static_cast<std::size_t>(std::distance(labels, {}));
    }
  }
  return spots;
}

// What a person reads in a file.
inline std::string said_in(const std::string& folder, const std::string& name, const std::string& bytes) {
  return name.ends_with(".pdf") ? castplan::pdf::text_of(folder + "/" + name) : bytes;
}

inline void none_anywhere(const std::string& folder, const std::string& reason) {
  const auto spots = spots_by_file(folder);
  CHECK(spots.size() == 11);
  for (const auto& [file, count] : spots) {
    INFO(file);
    CHECK(count == 0);
  }
  for (const auto& [name, bytes] : files_in(folder)) {
    INFO(name);
    if (name != "spots.csv" && name != "log.csv") CHECK(said_in(folder, name, bytes).find(reason) != std::string::npos);
  }
  CHECK(json_in(folder + "/summary.json")["advisory"]["level"] == "stop");
}

}  // namespace castplan::programs
