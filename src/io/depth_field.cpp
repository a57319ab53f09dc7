// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/depth_field.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <string_view>

#include "io/inspect_depths.hpp"

namespace castplan {
namespace {

/// The best first. Words of the trade, common practice, no source.
constexpr std::array<std::string_view, 6> kWords = {"depth", "contour", "sounding", "bathy", "z", "elev"};

/// 0 for the best word, kWords.size() for none.
std::size_t rank(const std::string& name) {
  std::string lower;
  for (const char c : name) lower += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  for (std::size_t i = 0; i < kWords.size(); ++i) {
    const bool whole = kWords[i].size() == 1;
    // "depth_to_water" and the like measure something else
    if (whole ? lower == kWords[i] : lower.rfind(kWords[i], 0) == 0 && lower.find("_to_") == std::string::npos) {
      return i;
    }
  }
  return kWords.size();
}

}  // namespace

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
  const FieldFacts* best = nullptr;
  std::size_t best_rank = kWords.size();
  for (const FieldFacts& field : fields) {
    const std::size_t own = rank(field.name);
    if (own == kWords.size() || field.levels < 2) continue;
    const bool metres = unit_hint(field.name) == "m";
    if (own < best_rank || (own == best_rank && metres && unit_hint(best->name) != "m")) {
      best = &field;
      best_rank = own;
    }
  }
  return best == nullptr ? "" : best->name;
}

}  // namespace castplan
