// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/table_layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "castplan/geo/error.hpp"
#include "io/field_words.hpp"
#include "io/number_text.hpp"

namespace castplan {
namespace {

using Texts = std::vector<std::string_view>;
using Cells = std::vector<std::string_view>;

bool is_number(std::string_view cell, char decimal) {
  return number_of(cell, decimal) || metres_of_text(cell, decimal);
}
bool is_number(std::string_view cell) { return is_number(cell, '.') || is_number(cell, ','); }

std::size_t numbers_in(const Cells& cells) {
  return static_cast<std::size_t>(
      std::count_if(cells.begin(), cells.end(), [](std::string_view cell) { return is_number(cell); }));
}

/// Share of the lines that hold at least three numbers when parted so; a header is one line among many.
double share_of_rows(const Texts& lines, char separator) {
  Cells cells;
  std::size_t rows = 0;
  for (const std::string_view line : lines) {
    split_line(line, separator, cells);
    if (numbers_in(cells) >= 3) ++rows;
  }
  return lines.empty() ? 0.0 : static_cast<double>(rows) / static_cast<double>(lines.size());
}

/// The first that parts half of the lines, else the one that parts most: sonar logs have rows without a depth.
char separator_of(const Texts& lines, const std::string& shown) {
  char best = 0;
  double most = 0;
  for (const char one : {'\t', ';', ',', ' '}) {
    const double share = share_of_rows(lines, one);
    if (share >= 0.5) return one;
    if (share > most) {
      most = share;
      best = one;
    }
  }
  if (best != 0) return best;
  if (lines.size() == 1) {
    throw InputError(fmt::format("{}: holds one line, \"{}\", and no rows; expected a place and a depth in each", shown,
                                 lines.front().substr(0, 60)));
  }
  throw InputError(fmt::format(
      "{}: no rows of at least three numbers (a place and a depth) parted by comma, semicolon, tab or spaces; the "
      "first "
      "line is \"{}\"; if the separator is another, say it: separator = \"...\" beside the file in the lake file",
      shown, lines.empty() ? "" : lines.front().substr(0, 60)));
}

/// A cell of the header can be a number only by accident; a row has three.
bool has_header(const Cells& first) {
  const bool named = std::any_of(first.begin(), first.end(),
                                 [](std::string_view cell) { return meaning_of(cell).role != FieldRole::other; });
  return named || numbers_in(first) == 0;
}

[[noreturn]] void fail_column(const std::string& shown, const std::string& what, const std::string& option,
                              const TableLayout& layout) {
  const std::vector<std::string_view> names(layout.names.begin(), layout.names.end());
  throw InputError(fmt::format(
      "{}: {}; it has {}; say which: --columns {}=NAME (or columns = {{ {} = \"NAME\" }} beside the file in "
      "the lake file; a number counts from 1)",
      shown, what, listed(names), option, option));
}

/// A column by its name, whatever the case, or by its number.
int told_column(const std::string& told, const std::string& option, const TableLayout& layout,
                const std::string& shown) {
  for (std::size_t i = 0; i < layout.names.size(); ++i) {
    if (layout.names[i] == told) return static_cast<int>(i);
  }
  for (std::size_t i = 0; i < layout.names.size(); ++i) {
    if (lower(layout.names[i]) == lower(told)) return static_cast<int>(i);
  }
  int number = 0;
  const auto [end, problem] = std::from_chars(told.data(), told.data() + told.size(), number);
  const bool whole = problem == std::errc() && end == told.data() + told.size();
  if (whole && number >= 1 && static_cast<std::size_t>(number) <= layout.names.size()) return number - 1;
  fail_column(shown, fmt::format("no column {}", told), option, layout);
}

int column_of(FieldRole role, const TableLayout& layout) {
  int best = -1;
  int likeness = 0;
  for (std::size_t i = 0; i < layout.names.size(); ++i) {
    const FieldMeaning meaning = meaning_of(layout.names[i]);
    if (meaning.role != role || (best >= 0 && meaning.likeness >= likeness)) continue;
    best = static_cast<int>(i);
    likeness = meaning.likeness;
  }
  return best;
}

/// Longitude and latitude, else easting and northing; never one of each.
void find_place(const SoundingOptions& options, const std::string& shown, TableLayout& layout) {
  const DepthColumns& told = options.columns;
  if (!told.x.empty()) layout.x = told_column(told.x, "x", layout, shown);
  if (!told.y.empty()) layout.y = told_column(told.y, "y", layout, shown);
  const int lon = column_of(FieldRole::lon, layout);
  const int lat = column_of(FieldRole::lat, layout);
  const bool degrees = lon >= 0 && lat >= 0;
  const int east = degrees ? lon : column_of(FieldRole::easting, layout);
  const int north = degrees ? lat : column_of(FieldRole::northing, layout);
  if (told.x.empty()) layout.x = east;
  if (told.y.empty()) layout.y = north;
  if (layout.x < 0) fail_column(shown, "no column whose name says longitude or x", "x", layout);
  if (layout.y < 0) fail_column(shown, "no column whose name says latitude or y", "y", layout);
  const auto degrees_in = [&](int column) { return says_degrees(layout.names[static_cast<std::size_t>(column)]); };
  layout.degrees = degrees_in(layout.x) && degrees_in(layout.y);
}

void find_depth(const SoundingOptions& options, const std::string& shown, TableLayout& layout) {
  const std::string& told = options.columns.depth.empty() ? options.field : options.columns.depth;
  if (!told.empty()) {
    layout.depth = told_column(told, "depth", layout, shown);
    return;
  }
  std::vector<std::string> also;
  layout.depth = depth_field(layout.names, options.unit, also);
  if (layout.depth < 0) fail_column(shown, "no column whose name says depth", "depth", layout);
  if (also.empty()) return;
  const std::vector<std::string_view> others(also.begin(), also.end());
  layout.notes.push_back(fmt::format("{}: depths are read from column {}; not used: {}", shown,
                                     layout.names[static_cast<std::size_t>(layout.depth)], listed(others)));
}

void find_columns(const SoundingOptions& options, const std::string& shown, TableLayout& layout) {
  if (layout.header) {
    find_place(options, shown, layout);
    find_depth(options, shown, layout);
    layout.track = column_of(FieldRole::track, layout);
  } else {
    const DepthColumns& told = options.columns;
    const std::string& depth = told.depth.empty() ? options.field : told.depth;
    layout.x = told_column(told.x.empty() ? "1" : told.x, "x", layout, shown);
    layout.y = told_column(told.y.empty() ? "2" : told.y, "y", layout, shown);
    layout.depth = told_column(depth.empty() ? "3" : depth, "depth", layout, shown);
  }
  if (!options.columns.track.empty()) layout.track = told_column(options.columns.track, "track", layout, shown);
  if (layout.x == layout.y || layout.x == layout.depth || layout.y == layout.depth) {
    fail_column(shown, "one column stands for two of x, y and depth", "x", layout);
  }
}

/// The mark that the needed columns show; a point where none shows any.
char decimal_of(const Texts& rows, const TableLayout& layout, const std::string& shown) {
  Cells cells;
  std::string_view comma;
  std::string_view point;
  for (const std::string_view line : rows) {
    split_line(line, layout.separator, cells);
    for (const int column : {layout.x, layout.y, layout.depth}) {
      if (static_cast<std::size_t>(column) >= cells.size()) continue;
      const std::string_view cell = cells[static_cast<std::size_t>(column)];
      if (comma.empty() && cell.find(',') != cell.npos && is_number(cell, ',')) comma = cell;
      if (point.empty() && cell.find('.') != cell.npos && is_number(cell, '.')) point = cell;
    }
  }
  if (!comma.empty() && !point.empty()) {
    throw InputError(
        fmt::format("{}: decimal commas (\"{}\") stand beside decimal points (\"{}\"); say which is meant: decimal = "
                    "\",\" or \".\" "
                    "beside the file in the lake file",
                    shown, bare(comma), bare(point)));
  }
  return comma.empty() ? '.' : ',';
}

void check_widths(const Texts& rows, const TableLayout& layout, const std::string& shown) {
  if (!layout.header || layout.separator != ',' || rows.empty()) return;
  Cells cells;
  for (const std::string_view line : rows) {
    split_line(line, layout.separator, cells);
    if (cells.size() < 2 * layout.names.size()) return;
  }
  throw InputError(fmt::format(
      "{}: the header has {} columns, but the rows have {}: decimal commas between commas cannot be told apart; part "
      "the columns by semicolons, or write decimal points",
      shown, layout.names.size(), cells.size()));
}

}  // namespace

bool is_no_row(std::string_view line) {
  const std::string_view text = bare(line);
  return text.empty() || text.front() == '#' || text.starts_with("//");
}

void split_line(std::string_view line, char separator, std::vector<std::string_view>& cells) {
  cells.clear();
  std::size_t start = 0;
  bool quoted = false;
  const auto blank = [](char c) { return c == ' ' || c == '\t'; };
  for (std::size_t i = 0; i <= line.size(); ++i) {
    if (i < line.size() && line[i] == '"') quoted = !quoted;
    const bool parts = i == line.size() || (!quoted && (separator == ' ' ? blank(line[i]) : line[i] == separator));
    if (!parts) continue;
    if (separator != ' ' || i > start) cells.push_back(line.substr(start, i - start));
    start = i + 1;
  }
}

TableLayout layout_of(const Texts& lines, const SoundingOptions& options, const std::string& shown) {
  Texts rows;
  for (const std::string_view line : lines) {
    if (!is_no_row(line)) rows.push_back(line);
  }
  if (rows.empty()) throw InputError(fmt::format("{}: is empty; expected rows of a place and a depth", shown));
  TableLayout layout;
  layout.separator = options.separator != 0 ? options.separator : separator_of(rows, shown);
  Cells cells;
  split_line(rows.front(), layout.separator, cells);
  layout.header = has_header(cells);
  for (std::size_t i = 0; i < cells.size(); ++i) {
    layout.names.push_back(layout.header ? std::string(bare(cells[i])) : fmt::format("{}", i + 1));
  }
  if (layout.header) rows.erase(rows.begin());
  if (rows.empty()) throw InputError(fmt::format("{}: has a header and no rows", shown));
  check_widths(rows, layout, shown);
  find_columns(options, shown, layout);
  layout.decimal = options.decimal != 0 ? options.decimal : decimal_of(rows, layout, shown);
  return layout;
}

}  // namespace castplan
