// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/toml_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "castplan/geo/error.hpp"
#include "io/iso_date.hpp"

namespace castplan {
namespace {

/// How a value is written, for "found ...".
std::string written(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::table:
      return "a table";
    case toml::node_type::array:
      return "a list";
    case toml::node_type::string:
      return fmt::format("\"{}\"", node.ref<std::string>());
    case toml::node_type::integer:
      return fmt::format("{}", node.ref<int64_t>());
    case toml::node_type::floating_point:
      return fmt::format("{}", node.ref<double>());
    case toml::node_type::boolean:
      return node.ref<bool>() ? "true" : "false";
    default:
      return "a date or time";
  }
}

template <class Value>
std::string streamed(const Value& value) {
  std::ostringstream out;
  out << value;
  return out.str();
}

}  // namespace

TomlTable::TomlTable(const toml::table& table, std::string file, std::string place)
    : table_(table), file_(std::move(file)), place_(std::move(place)) {}

std::string TomlTable::where(const toml::node* node) const {
  const auto line = node == nullptr ? table_.source().begin.line : node->source().begin.line;
  return fmt::format("{}, line {}", file_, line);
}

const toml::node* TomlTable::find(std::string_view key) {
  if (std::find(asked_.begin(), asked_.end(), key) == asked_.end()) asked_.emplace_back(key);
  return table_.get(key);
}

const toml::node* TomlTable::raw(std::string_view key) { return find(key); }

void TomlTable::fail(std::string_view key, const std::string& found_and_expected) const {
  throw InputError(fmt::format("{}: {}{}: {}", where(table_.get(key)), place_, key, found_and_expected));
}

std::vector<std::string> TomlTable::keys() const {
  std::vector<std::string> out;
  for (const auto& [key, node] : table_) out.emplace_back(key.str());
  return out;
}

std::string TomlTable::text(std::string_view key) {
  const toml::node* node = find(key);
  if (node == nullptr) return {};
  if (!node->is_string()) fail(key, fmt::format("found {}, expected text in quotes", written(*node)));
  const std::string& value = node->ref<std::string>();
  if (value.empty()) fail(key, "is empty; give a value or leave the key out");
  return value;
}

std::string TomlTable::choice(std::string_view key, std::span<const std::string_view> known) {
  const std::string value = text(key);
  if (value.empty() || std::find(known.begin(), known.end(), value) != known.end()) return value;
  const std::string nearest = nearest_name(value, known);
  fail(key, fmt::format("\"{}\" is not known{}; known are {}", value,
                        nearest.empty() ? "" : fmt::format(", did you mean \"{}\"?", nearest), listed(known)));
}

std::vector<std::string> TomlTable::texts(std::string_view key) {
  const toml::node* node = find(key);
  std::vector<std::string> out;
  if (node == nullptr) return out;
  const toml::array* list = node->as_array();
  if (list == nullptr)
    fail(key, fmt::format("found {}, expected a list of texts, as in [\"a\", \"b\"]", written(*node)));
  for (const toml::node& item : *list) {
    if (!item.is_string()) fail(key, fmt::format("found {} in the list, expected text in quotes", written(item)));
    out.push_back(item.ref<std::string>());
  }
  return out;
}

std::optional<double> TomlTable::number(std::string_view key) {
  const toml::node* node = find(key);
  if (node == nullptr) return std::nullopt;
  const auto value = node->value<double>();
  if (!value || !(node->is_integer() || node->is_floating_point())) {
    fail(key, fmt::format("found {}, expected a number", written(*node)));
  }
  return value;
}

std::optional<long long> TomlTable::whole(std::string_view key) {
  const toml::node* node = find(key);
  if (node == nullptr) return std::nullopt;
  if (!node->is_integer()) fail(key, fmt::format("found {}, expected a whole number", written(*node)));
  return node->ref<int64_t>();
}

std::optional<Metres> TomlTable::length(std::string_view key) {
  const toml::node* node = find(key);
  if (node == nullptr) return std::nullopt;
  if (!node->is_string()) {
    fail(key, fmt::format("found {}, expected a length with its unit in quotes, as in \"2.7 m\" or \"9 ft\"",
                          written(*node)));
  }
  try {
    return parse_length(node->ref<std::string>());
  } catch (const InputError& error) {
    fail(key, error.what());
  }
}

std::optional<Celsius> TomlTable::temperature(std::string_view key) {
  const toml::node* node = find(key);
  if (node == nullptr) return std::nullopt;
  if (!node->is_string()) {
    fail(key, fmt::format("found {}, expected a temperature with its unit in quotes, as in \"57 F\" or \"14 C\"",
                          written(*node)));
  }
  try {
    return parse_temperature(node->ref<std::string>());
  } catch (const InputError& error) {
    fail(key, error.what());
  }
}

std::string TomlTable::date(std::string_view key) {
  const toml::node* node = find(key);
  if (node == nullptr) return {};
  std::string value;
  if (node->is_date()) value = streamed(node->ref<toml::date>());
  if (node->is_string()) value = node->ref<std::string>();
  if (!is_iso_date(value)) fail(key, fmt::format("found {}, expected a date, as in 2026-06-10", written(*node)));
  return value;
}

std::string TomlTable::moment(std::string_view key) {
  const toml::node* node = find(key);
  if (node == nullptr) return {};
  std::string value;
  if (node->is_date_time()) value = streamed(node->ref<toml::date_time>());
  if (node->is_date()) value = streamed(node->ref<toml::date>());
  if (node->is_string()) value = node->ref<std::string>();
  if (!is_iso_date(std::string_view(value).substr(0, 10))) {
    fail(key, fmt::format("found {}, expected a date with a time, as in 2026-06-10T07:30:00", written(*node)));
  }
  return value;
}

std::string TomlTable::year_or_date(std::string_view key) {
  const toml::node* node = find(key);
  if (node == nullptr) return {};
  if (node->is_integer()) return std::to_string(node->ref<int64_t>());
  if (node->is_string()) return node->ref<std::string>();
  return date(key);
}

std::string TomlTable::checked_day(const std::string& day, std::string_view key) const {
  if (!is_season_day(day)) fail(key, fmt::format("found \"{}\", expected a day of the year, as in \"05-25\"", day));
  return day;
}

std::string TomlTable::season_day(std::string_view key) {
  const std::string day = text(key);
  return day.empty() ? day : checked_day(day, key);
}

void TomlTable::table(std::string_view key, const std::function<void(TomlTable&)>& read) {
  const toml::node* node = find(key);
  if (node == nullptr) return;
  if (!node->is_table()) fail(key, fmt::format("found {}, expected a table: [{}]", written(*node), key));
  TomlTable inner(*node->as_table(), file_, fmt::format("{}{}.", place_, key));
  read(inner);
  inner.finish();
}

void TomlTable::tables(std::string_view key, const std::function<void(TomlTable&)>& read) {
  const toml::node* node = find(key);
  if (node == nullptr) return;
  const toml::array* list = node->as_array();
  if (list == nullptr)
    fail(key, fmt::format("found {}, expected [[{}]] (two brackets, one for each)", written(*node), key));
  for (const toml::node& item : *list) {
    if (!item.is_table()) fail(key, fmt::format("found {} in the list, expected tables: [[{}]]", written(item), key));
    TomlTable inner(*item.as_table(), file_, fmt::format("{}{}.", place_, key));
    read(inner);
    inner.finish();
  }
}

void TomlTable::finish() const {
  const std::vector<std::string_view> known(asked_.begin(), asked_.end());
  for (const auto& [key, node] : table_) {
    const std::string_view name = key.str();
    if (std::find(known.begin(), known.end(), name) != known.end()) continue;
    const std::string nearest = nearest_name(name, known);
    throw InputError(fmt::format("{}, line {}: unknown key {}{}{}; known are {}", file_, key.source().begin.line,
                                 place_, name, nearest.empty() ? "" : fmt::format(", did you mean {}?", nearest),
                                 listed(known)));
  }
}

}  // namespace castplan
