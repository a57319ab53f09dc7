// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "castplan/geo/coordinate.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "castplan/write/html_text.hpp"

namespace castplan {

/// Text from an input as one line, with nothing in it that could be a tag: & < > as references.
std::string without_tags(std::string_view text);

/// JSON that may stand inside a script element: "<" written as \u003c (HTML Living Standard, script data state).
std::string script_safe(std::string json);

/// 048°: three digits, as a bearing is spoken; 359.7 is 000.
std::string bearing_text(Degrees bearing);

/// "2.4 m (8 ft)": the reader's unit first.
std::string both_units(Metres length, Units units);

/// A text in both units that the reader can switch between; the style sheet shows one of the two.
std::string in_units(const std::string& metric, const std::string& imperial);
/// "2.4 m", "2.4 m (8 ft)", "18 m", so that the switch changes them.
std::string length_html(Metres length);
std::string both_html(Metres length);
std::string distance_html(Metres distance);
/// "1.5 m to 3.0 m"; one length where both print alike.
std::string range_html(std::pair<Metres, Metres> range);

/// Base 64 (RFC 4648, section 4).
std::string base64(std::string_view bytes);

}  // namespace castplan
