// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <toml++/toml.h>

#include <initializer_list>
#include <string>
#include <string_view>

#include "castplan/geo/quantity.hpp"

namespace castplan {

/// One TOML table, read strictly. Every error is an InputError that says file, line and place.
class ProfileTable {
 public:
  /// file and place name the table in messages: "muskellunge.toml", "phase spawn, rising".
  ProfileTable(const toml::table& table, std::string file, std::string place);

  /// Throws for a key that is not among these, with the nearest that is.
  void allow(std::initializer_list<std::string_view> known) const;
  [[nodiscard]] bool has(std::string_view key) const { return table_.contains(key); }
  /// Throws when the key is missing, as do all below that return a plain value.
  [[nodiscard]] const toml::node& node(std::string_view key) const;
  [[nodiscard]] std::string text(std::string_view key) const;
  [[nodiscard]] std::string text_or_empty(std::string_view key) const;
  [[nodiscard]] double number(std::string_view key) const;
  [[nodiscard]] bool boolean_or(std::string_view key, bool otherwise) const;
  [[nodiscard]] ProfileTable table(std::string_view key) const;
  [[nodiscard]] const toml::array& array(std::string_view key) const;
  [[nodiscard]] const toml::table& raw() const { return table_; }
  [[nodiscard]] const std::string& file() const { return file_; }
  /// The element of an array as a table.
  [[nodiscard]] ProfileTable element(const toml::node& element, std::string place) const;
  /// A text with its unit, as a quantity.
  [[nodiscard]] Celsius temperature(std::string_view key) const;
  [[nodiscard]] Metres length(const toml::node& element) const;

  [[noreturn]] void fail(const std::string& what) const;
  [[noreturn]] void fail_at(const toml::node& node, const std::string& what) const;

 private:
  const toml::table& table_;
  std::string file_;
  std::string place_;
};

}  // namespace castplan
