// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace castplan {

/// A number as it stands in a text; signs are left to the reader, since a letter may stand for one.
struct FoundNumber {
  std::size_t at{}, end{};  ///< bytes of the text
  double value{};           ///< without its sign
  int decimals{};           ///< digits behind the mark; 0 for a whole number
  int digits{};             ///< digits before it
};

/// Numbers in a text, in order: digits with "." and, where it stands between digits, "," as the decimal mark (then the
/// number is found both ways: as one, and as two).
std::vector<FoundNumber> numbers_in(std::string_view text);

/// A text as a reader would see it, and where each of its bytes came from: HTML references (&#46; &deg;), \u002e of
/// JSON and %2E of addresses undone.
struct Decoded {
  std::string text;
  std::vector<std::size_t> from;
};
Decoded decoded(std::string_view raw);

/// The bytes that a run of base 64 holds; empty for what is none.
std::string from_base64(std::string_view run);

}  // namespace castplan
