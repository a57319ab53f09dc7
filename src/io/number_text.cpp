// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/number_text.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "castplan/geo/quantity_text.hpp"

namespace castplan {
namespace {

constexpr double kFillers[] = {-999.0, -9999.0, -99999.0, -999999.0, -32768.0, -32767.0, 32767.0,
                               9999.0, 65535.0, 99999.0,  999999.0,  -1e6,     1e6};
constexpr double kAlwaysFiller = 1e20;

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r'; }

/// Numbers are short; a longer text is none.
constexpr std::size_t kLongest = 48;

}  // namespace

std::string_view bare(std::string_view cell) {
  while (!cell.empty() && is_blank(cell.front())) cell.remove_prefix(1);
  while (!cell.empty() && is_blank(cell.back())) cell.remove_suffix(1);
  if (cell.size() >= 2 && cell.front() == '"' && cell.back() == '"') return bare(cell.substr(1, cell.size() - 2));
  return cell;
}

std::string lower(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return out;
}

std::optional<double> number_of(std::string_view cell, char decimal) {
  cell = bare(cell);
  if (cell.size() > 1 && cell.front() == '+' && cell[1] != '-') cell.remove_prefix(1);
  if (cell.empty() || cell.size() > kLongest) return std::nullopt;
  char with_point[kLongest];
  if (decimal != '.') {
    std::copy(cell.begin(), cell.end(), with_point);
    for (std::size_t i = 0; i < cell.size(); ++i) {
      if (with_point[i] == '.') return std::nullopt;
      if (with_point[i] == decimal) with_point[i] = '.';
    }
    cell = {with_point, cell.size()};
  }
  double value = 0;
  const auto [end, problem] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  if (problem != std::errc() || end != cell.data() + cell.size()) return std::nullopt;
  return value;
}

std::optional<double> metres_of_text(std::string_view cell, char decimal) {
  cell = bare(cell);
  // digits first and a letter last, or it costs an exception for nothing
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  if (cell.size() < 2 || cell.size() > kLongest || !std::any_of(cell.begin(), cell.end(), digit)) return std::nullopt;
  if (digit(cell.back()) || !(digit(cell.front()) || cell.front() == '-' || cell.front() == '+')) return std::nullopt;
  std::string text(cell);
  if (decimal != '.') std::replace(text.begin(), text.end(), decimal, '.');
  try {
    return parse_length(text).value();
  } catch (const InputError&) {
    return std::nullopt;
  }
}

bool is_filler(double value) {
  return std::fabs(value) > kAlwaysFiller ||
         std::find(std::begin(kFillers), std::end(kFillers), value) != std::end(kFillers);
}

}  // namespace castplan
