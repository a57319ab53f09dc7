// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/csv_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fstream>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(" \t\r\n");
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

bool in_open_quotes(const std::string& text) { return std::count(text.begin(), text.end(), '"') % 2 != 0; }

std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (c == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"') {
      cells.back() += '"';
      ++i;
    } else if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      cells.emplace_back();
    } else {
      cells.back() += c;
    }
  }
  for (std::string& cell : cells) cell = trimmed(cell);
  return cells;
}

}  // namespace

CsvTable::CsvTable(const std::string& path, std::string shown) : shown_(std::move(shown)) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw InputError(fmt::format("{}: cannot be opened for reading", shown_));
  std::string line;
  int number = 0;
  while (std::getline(in, line)) {
    const int first = ++number;
    for (std::string more; in_open_quotes(line) && std::getline(in, more); ++number) line += "\n" + more;
    if (first == 1 && line.rfind("\xEF\xBB\xBF", 0) == 0) line.erase(0, 3);
    if (trimmed(line).empty()) continue;
    std::vector<std::string> cells = split(line);
    if (header_.empty()) {
      header_ = std::move(cells);
      continue;
    }
    if (cells.size() > header_.size()) {
      throw InputError(
          fmt::format("{}, line {}: has {} cells, but the header has {}; a cell with a comma in it needs quotes",
                      shown_, first, cells.size(), header_.size()));
    }
    rows_.push_back({first, std::move(cells)});
  }
  if (header_.empty()) throw InputError(fmt::format("{}: is empty; expected a header line and rows", shown_));
}

int CsvTable::find(std::string_view column) const {
  const auto found = std::find(header_.begin(), header_.end(), column);
  return found == header_.end() ? -1 : static_cast<int>(found - header_.begin());
}

bool CsvTable::has(std::string_view column) const { return find(column) >= 0; }

void CsvTable::need(std::string_view column) const {
  if (has(column)) return;
  const std::vector<std::string_view> names(header_.begin(), header_.end());
  throw InputError(fmt::format("{}, line 1: no column {}; it has {}", shown_, column, listed(names)));
}

std::string CsvTable::text(std::size_t row, std::string_view column) const {
  const int at = find(column);
  const auto& cells = rows_[row].cells;
  return at < 0 || static_cast<std::size_t>(at) >= cells.size() ? std::string() : cells[static_cast<std::size_t>(at)];
}

double CsvTable::number(std::size_t row, std::string_view column) const {
  const std::string cell = text(row, column);
  double value = 0;
  const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  if (cell.empty() || error != std::errc() || end != cell.data() + cell.size() || !std::isfinite(value)) {
    fail(row, column, "a number");
  }
  return value;
}

void CsvTable::fail(std::size_t row, std::string_view column, const std::string& expected) const {
  throw InputError(fmt::format("{}, line {}: {} is \"{}\", expected {}", shown_, rows_[row].line, column,
                               text(row, column), expected));
}

}  // namespace castplan
