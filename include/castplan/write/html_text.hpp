// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "castplan/geo/coordinate.hpp"

namespace castplan {

/// Text from an input as one line (`one_line`), safe for HTML text and quoted attributes: & < > " ' as references.
std::string escaped(std::string_view text);

/// The name of a place from an input, cut to what a page can show, and escaped.
std::string short_name(std::string_view name);
/// The same, isolated, so that a name written from right to left leaves its neighbours alone.
std::string name_html(std::string_view name);

/// 45° 30.123' N, 040° 00.456' W, in two parts that do not break over lines: minutes to 0.001 (about 1.9 m),
/// never 60.000.
std::string degrees_minutes(LonLat place);
/// The same without the marks of a page, on one line.
std::string plain_degrees_minutes(LonLat place);
/// 45.502050, -40.007600: latitude first, as people say it.
std::string decimal_degrees(LonLat place);

/// Replaces {{key}} in a template, in one pass: what is put in is never looked at again. A key without a value is a
/// mistake of ours (assert).
std::string filled(std::string_view page, const std::vector<std::pair<std::string_view, std::string>>& values);

}  // namespace castplan
