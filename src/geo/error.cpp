// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/error.hpp"

#include <algorithm>
#include <numeric>
#include <vector>

namespace castplan {
namespace {

constexpr std::size_t kFurthest = 3;

char lowered(char letter) { return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter; }

/// Levenshtein distance that takes capitals for small letters.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t replaced = diagonal + (lowered(a[i]) == lowered(b[j]) ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({replaced, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row.back();
}

}  // namespace

std::string nearest_name(std::string_view written, std::span<const std::string_view> known) {
  std::string_view best;
  std::size_t best_distance = kFurthest + 1;
  for (const std::string_view name : known) {
    const std::size_t steps = edit_distance(written, name);
    // a name of which every letter was changed is no guess
    if (steps < best_distance && steps < std::min(written.size(), name.size())) {
      best = name;
      best_distance = steps;
    }
  }
  return std::string(best);
}

std::string listed(std::span<const std::string_view> names) {
  std::string text;
  for (const std::string_view name : names) {
    if (!text.empty()) text += ", ";
    text += name;
  }
  return text;
}

}  // namespace castplan
