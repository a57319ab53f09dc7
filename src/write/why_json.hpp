// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/spots/spot.hpp"
#include "castplan/write/text.hpp"

namespace castplan {

/// Members that spots and passes have alike, each with its key.
void write_texts(JsonText& json, std::string_view name, const std::vector<std::string>& list);
void write_kinds(JsonText& json, const std::vector<Kind>& kinds);
void write_why(JsonText& json, const std::vector<Reason>& why);
void write_presentations(JsonText& json, const std::vector<Presentation>& presentations);
/// [from, to], two decimals.
void write_range(JsonText& json, std::string_view name, std::pair<Metres, Metres> range);

}  // namespace castplan
