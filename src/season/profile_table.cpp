// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "season/profile_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

#include "castplan/geo/error.hpp"
#include "castplan/geo/quantity_text.hpp"

namespace castplan {
namespace {

std::string kind_of(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::table:
      return "a table";
    case toml::node_type::array:
      return "an array";
    case toml::node_type::string:
      return "a text";
    case toml::node_type::integer:
    case toml::node_type::floating_point:
      return "a bare number";
    case toml::node_type::boolean:
      return "true or false";
    default:
      return "a date or time";
  }
}

std::string expected(const toml::node& node, std::string_view key, std::string_view wanted) {
  return fmt::format("{} is {}; expected {}", key, kind_of(node), wanted);
}

}  // namespace

ProfileTable::ProfileTable(const toml::table& table, std::string file, std::string place)
    : table_(table), file_(std::move(file)), place_(std::move(place)) {}

const toml::node& ProfileTable::node(std::string_view key) const {
  const toml::node* found = table_.get(key);
  if (!found) fail(fmt::format("\"{}\" is missing", key));
  return *found;
}

std::string ProfileTable::text(std::string_view key) const {
  const toml::node& found = node(key);
  const auto value = found.value<std::string>();
  if (!value || !found.is_string()) fail_at(found, expected(found, key, "a text in quotes"));
  if (value->empty()) fail_at(found, fmt::format("{} is empty", key));
  return *value;
}

std::string ProfileTable::text_or_empty(std::string_view key) const { return has(key) ? text(key) : std::string(); }

double ProfileTable::number(std::string_view key) const {
  const toml::node& found = node(key);
  const auto value = found.value<double>();
  if (!value || !found.is_number() || !std::isfinite(*value)) fail_at(found, expected(found, key, "a number"));
  return *value;
}

bool ProfileTable::boolean_or(std::string_view key, bool otherwise) const {
  if (!has(key)) return otherwise;
  const toml::node& found = node(key);
  if (!found.is_boolean()) fail_at(found, expected(found, key, "true or false"));
  return found.as_boolean()->get();
}

ProfileTable ProfileTable::table(std::string_view key) const {
  const toml::node& found = node(key);
  if (!found.is_table()) fail_at(found, expected(found, key, "a table"));
  return {*found.as_table(), file_, place_.empty() ? std::string(key) : fmt::format("{}, {}", place_, key)};
}

const toml::array& ProfileTable::array(std::string_view key) const {
  const toml::node& found = node(key);
  if (!found.is_array()) fail_at(found, expected(found, key, "an array"));
  return *found.as_array();
}

ProfileTable ProfileTable::element(const toml::node& element, std::string place) const {
  if (!element.is_table()) fail_at(element, fmt::format("{} is {}; expected a table", place, kind_of(element)));
  return {*element.as_table(), file_, place_.empty() ? std::move(place) : fmt::format("{}, {}", place_, place)};
}

Celsius ProfileTable::temperature(std::string_view key) const {
  const toml::node& found = node(key);
  if (!found.is_string()) fail_at(found, expected(found, key, "a temperature with its unit, \"8 C\" or \"46 F\""));
  try {
    return parse_temperature(found.as_string()->get());
  } catch (const InputError& error) {
    fail_at(found, fmt::format("{}: {}", key, error.what()));
  }
}

Metres ProfileTable::length(const toml::node& element) const {
  if (!element.is_string()) {
    fail_at(element, fmt::format("{}; expected a length with its unit, \"0.5 m\" or \"2 ft\"", kind_of(element)));
  }
  try {
    return parse_length(element.as_string()->get());
  } catch (const InputError& error) {
    fail_at(element, error.what());
  }
}

void ProfileTable::allow(std::initializer_list<std::string_view> known) const {
  const std::span<const std::string_view> names(known.begin(), known.size());
  for (const auto& [key, value] : table_) {
    if (std::find(names.begin(), names.end(), key.str()) != names.end()) continue;
    const std::string nearest = nearest_name(key.str(), names);
    fail_at(value, fmt::format("unknown key \"{}\"{}; known here are {}", key.str(),
                               nearest.empty() ? "" : fmt::format(", did you mean \"{}\"?", nearest), listed(names)));
  }
}

void ProfileTable::fail(const std::string& what) const { fail_at(table_, what); }

void ProfileTable::fail_at(const toml::node& node, const std::string& what) const {
  const auto line = node.source().begin.line;
  throw InputError(fmt::format("{}{}: {}{}", file_, line > 0 ? fmt::format(", line {}", line) : "",
                               place_.empty() ? "" : place_ + ": ", what));
}

}  // namespace castplan
