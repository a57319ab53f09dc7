// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/made_apart.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "castplan/grid/sweep.hpp"

namespace castplan {

std::vector<Feature> in_parallel(int count, const std::function<std::optional<Feature>(int)>& make) {
  std::vector<std::optional<Feature>> made(static_cast<std::size_t>(count));
  each(count, [&](int i) { made[static_cast<std::size_t>(i)] = make(i); });
  std::vector<Feature> features;
  for (std::optional<Feature>& feature : made) {
    if (feature) features.push_back(std::move(*feature));
  }
  return features;
}

std::vector<Feature> north_first(std::vector<Feature> features) {
  std::stable_sort(features.begin(), features.end(), [](const Feature& a, const Feature& b) {
    if (a.anchor.y != b.anchor.y) return a.anchor.y > b.anchor.y;
    return a.anchor.x < b.anchor.x;
  });
  return features;
}

std::vector<Feature> numbered(std::vector<Feature> features, const std::string& word) {
  for (std::size_t i = 0; i < features.size(); ++i) features[i].name = fmt::format("{} {}", word, i + 1);
  return features;
}

}  // namespace castplan
