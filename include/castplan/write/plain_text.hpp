// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

namespace castplan {

/// Texts as the formats need them, whatever a lake file or an attribute table holds.

/// The same text with bytes that are not UTF-8 (overlong forms, surrogates and cut letters included) as U+FFFD.
std::string valid_utf8(std::string_view text);

/// One line for people: valid UTF-8 without control characters, marks that turn the reading direction, and letters that
/// XML does not allow; runs of white space become one space, none at the ends.
std::string one_line(std::string_view text);

/// one_line with a full stop when it has no end mark; empty stays empty.
std::string sentence(std::string_view text);

/// At most a number of bytes, cut between letters; "..." at the end when something was cut.
std::string shortened(std::string_view text, std::size_t bytes);

/// Fixed notation, "." whatever the locale, no negative zero; empty for NaN and infinities.
std::string fixed(double value, int decimals);

}  // namespace castplan
