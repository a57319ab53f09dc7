// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace castplan {

/// Without blanks and one pair of quotes around it.
std::string_view bare(std::string_view cell);

/// Small letters of the plain alphabet.
std::string lower(std::string_view text);

/// The whole cell as a number with this decimal mark; nullopt for anything else. A leading + is allowed.
std::optional<double> number_of(std::string_view cell, char decimal);

/// A number with a unit of length behind it ("10 ft"), in metres; nullopt for anything else, a bare number too.
std::optional<double> metres_of_text(std::string_view cell, char decimal);

/// What programs write for "no data" (common practice, no source); no lake is that deep or high in any unit.
bool is_filler(double value);

}  // namespace castplan
