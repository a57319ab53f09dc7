// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "publish/public_lake.hpp"

namespace castplan {

/// Texts that the pages, the feed and the data files share. HTML is escaped.

/// "244.7 ha (605 acres)"
std::string area_text(double m2);
/// "20.0 m (66 ft)"; empty text for nothing.
std::string depth_text(std::optional<double> metres);
/// A list, or nothing for no texts.
std::string list_html(const std::vector<std::string>& texts);
/// What is known of a feature in one line: "from 4.0 m (13 ft) to 9.0 m (30 ft), grade 22 %, falls to the northeast".
std::string feature_words(const PublicFeature& feature);
/// "Invented for castplan, CC0-1.0, surveyed 2024"
std::string source_text(const PublicLake& lake);
/// "45.495 to 45.500 N, 40.010 to 40.000 W"
std::string edges_text(const CellEdges& edges);
/// One line on what the site shows of a lake: "Stop: no spots", "10 spots in 6 areas".
std::string state_text(const PublicLake& lake, const ExactPlaces* exact);
/// "A" for 0, "Z", "AA"
std::string letters(std::size_t number);
/// A part of the pages from src/publish/page.
std::string page_part(std::string_view name);

inline constexpr std::string_view kPolicy =
    "default-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src 'unsafe-inline'";
inline constexpr std::string_view kExactMark =
    "EXACT PLACES: this page shows where to cast, to everybody who can open it.";

}  // namespace castplan
