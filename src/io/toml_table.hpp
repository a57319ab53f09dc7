// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <toml++/toml.h>

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "castplan/geo/quantity_text.hpp"

namespace castplan {

/// Reads one table of a lake file. Every key that is asked for counts as known; finish() refuses all others. Every
/// error says file, line, key, what was found and what was expected.
class TomlTable {
 public:
  /// place: the table's name with its dot ("depth."), empty for the file's own keys.
  TomlTable(const toml::table& table, std::string file, std::string place);

  [[nodiscard]] bool has(std::string_view key) const { return table_.contains(key); }
  [[nodiscard]] std::vector<std::string> keys() const;  ///< all keys of the table, ascending
  std::string text(std::string_view key);
  /// Text out of a fixed list; empty when the key is absent.
  std::string choice(std::string_view key, std::span<const std::string_view> known);
  std::vector<std::string> texts(std::string_view key);
  std::optional<double> number(std::string_view key);
  std::optional<long long> whole(std::string_view key);
  std::optional<Metres> length(std::string_view key);        ///< "2.7 m": a bare number is refused
  std::optional<Celsius> temperature(std::string_view key);  ///< "57 F": the same
  std::string date(std::string_view key);                    ///< a TOML date or text YYYY-MM-DD; "" when absent
  std::string moment(std::string_view key);                  ///< a TOML date with a time, or text
  std::string year_or_date(std::string_view key);            ///< 1994, 1994-06 or a date
  std::string season_day(std::string_view key);              ///< MM-DD
  /// The same check for a day that stands deeper inside a value.
  [[nodiscard]] std::string checked_day(const std::string& day, std::string_view key) const;

  void table(std::string_view key, const std::function<void(TomlTable&)>& read);
  void tables(std::string_view key, const std::function<void(TomlTable&)>& read);  ///< [[key]]
  const toml::node* raw(std::string_view key);  ///< for shapes that no other function reads; null when absent

  /// Unknown keys are errors with the nearest known one.
  void finish() const;

  [[noreturn]] void fail(std::string_view key, const std::string& found_and_expected) const;

 private:
  const toml::node* find(std::string_view key);
  [[nodiscard]] std::string where(const toml::node* node) const;

  const toml::table& table_;
  std::string file_;
  std::string place_;
  std::vector<std::string> asked_;
};

}  // namespace castplan
