// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/spots/spot.hpp"
#include "castplan/write/text.hpp"
#include "write/ground_shape.hpp"

namespace castplan {

/// Lists that features, spots and passes have, as JSON on one line.

template <class WriteEntries>
std::string json_list(WriteEntries write_entries) {
  JsonText json(JsonText::Lines::one);
  json.begin_array();
  write_entries(json);
  json.end_array();
  return json.str();
}

std::string text_list(const std::vector<std::string>& texts);
std::string kind_list(const std::vector<Kind>& kinds);
std::string why_list(const std::vector<Reason>& why);
std::string presentation_list(const std::vector<Presentation>& presentations);
/// [from, to], two decimals.
std::string range_list(std::pair<Metres, Metres> range);

/// A member of an open object.
void write_texts(JsonText& json, std::string_view name, const std::vector<std::string>& list);

}  // namespace castplan
