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
    for (const char* with_ids : {"places.kml", "castplan.gpkg"}) {
      if (name != with_ids) continue;
      spots[name] = count_of(bytes, "spot-45.");
      spots["passes of " + name] = count_of(bytes, "pass-45.");
    }
    // rows of places to cast from have a head; nothing else there is a table
    if (name == "fragment.html") spots[name] = count_of(bytes, "<tr><th scope=\"row\">");
    // letters are shapes there: the text that goes with the drawing says how many numbers it has
    if (name == "map.png" || name == "map.svg") {
      const std::size_t at = bytes.find(" numbered spots;");
      REQUIRE(at != std::string::npos);
      spots[name] = std::stoul(bytes.substr(bytes.find_last_not_of("0123456789", at - 1) + 1));
    }
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

/// How many spots the pages for teaching and the list to check carry: a place that is cast from has a true bearing, one
/// that is sounded the depth under the boat, and the list its id. A contour sheet and a glossary have no place at all.
inline std::map<std::string, std::size_t> spots_in_teaching(const std::string& folder) {
  const auto text = [&](const std::string& name) { return castplan::pdf::text_of(folder + "/" + name); };
  std::map<std::string, std::size_t> spots;
  for (const std::string name : {"contours.pdf", "contours-key.pdf", "glossary.pdf", "to-check.pdf"}) {
    spots[name] = count_of(text(name), "\xC2\xB0 true") + count_of(text(name), "under the boat");
  }
  spots["to-check.csv"] = count_of(read(folder + "/to-check.csv"), "spot-");
  return spots;
}

inline void none_anywhere(const std::string& folder, const std::string& reason) {
  const auto spots = spots_by_file(folder);
  const std::size_t usual = 11, all = usual + 7;
  CHECK((spots.size() == usual || (spots.size() == all && spots.count("places.kml") == 1)));
  for (const auto& [file, count] : spots) {
    INFO(file);
    CHECK(count == 0);
  }
  for (const auto& [file, count] : spots_in_teaching(folder)) {
    INFO(file);
    CHECK(count == 0);
  }
  for (const auto& [name, bytes] : files_in(folder)) {
    INFO(name);
    // rows carry the reason: a table without a row has nowhere to say it
    const bool no_rows = name.ends_with(".csv") && count_of(bytes, "\r\n") == 1;
    if (!no_rows) CHECK(said_in(folder, name, bytes).find(reason) != std::string::npos);
  }
  CHECK(json_in(folder + "/summary.json")["advisory"]["level"] == "stop");
}

}  // namespace castplan::programs
