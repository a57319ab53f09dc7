// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "castplan/io/soundings.hpp"

namespace castplan {

/// How a text table is laid out.
struct TableLayout {
  char separator = ',';  ///< ' ' stands for any run of blanks
  char decimal = '.';
  bool header = false;
  std::vector<std::string> names;  ///< of the columns; "1", "2"... without a header
  int x = -1, y = -1, depth = -1, track = -1;
  bool degrees = false;  ///< the columns' names say longitude and latitude
  std::vector<std::string> notes;
};

/// Splits a line into cells, blanks and quotes left on. A separator within quotes does not part. cells: reused.
void split_line(std::string_view line, char separator, std::vector<std::string_view>& cells);

/// True for lines that hold no row: blank, or a comment that begins with # or //.
bool is_no_row(std::string_view line);

/// Finds the layout in the first lines of a file, as far as the options leave it open. InputError with what was found
/// and the option that tells.
TableLayout layout_of(const std::vector<std::string_view>& lines, const SoundingOptions& options,
                      const std::string& shown);

}  // namespace castplan
