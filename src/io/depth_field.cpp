// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/depth_field.hpp"

#include <charconv>
#include <cmath>
#include <string_view>

#include "io/field_words.hpp"

namespace castplan {
void FieldTally::add(const std::string& value) {
  const auto first = value.find_first_not_of(" \t+");
  if (first == std::string::npos) return;
  double number = 0;
  const auto [end, error] = std::from_chars(value.data() + first, value.data() + value.size(), number);
  if (error != std::errc() || !std::isfinite(number)) return;
  // a unit may follow, but "2013-05-01" is no number
  const std::string_view rest(end, static_cast<std::size_t>(value.data() + value.size() - end));
  if (rest.find_first_of("0123456789-:/.") != std::string_view::npos) return;
  ++values_;
  levels_.insert(number);
}

FieldFacts FieldTally::facts() const {
  FieldFacts out;
  out.name = name_;
  out.type = type_;
  out.values = values_;
  out.levels = levels_.size();
  if (!levels_.empty()) {
    out.low = *levels_.begin();
    out.high = *levels_.rbegin();
  }
  return out;
}

std::string depth_field(const std::vector<FieldFacts>& fields) {
  std::vector<std::string> names;
  for (const FieldFacts& field : fields) {
    if (field.levels >= 2) names.push_back(field.name);
  }
  std::vector<std::string> also;
  const int best = depth_field(names, std::nullopt, also);
  return best < 0 ? "" : names[static_cast<std::size_t>(best)];
}

}  // namespace castplan
