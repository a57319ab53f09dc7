// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/order_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

namespace castplan {

namespace {

constexpr double kSurelyAhead = 2.0 / 3;
constexpr std::size_t kMostChecks = 3;
constexpr double kWorthARank = 1;  // a sounding that moves nothing by a rank is not worth the way

/// "2", "2 and 5", "2, 5 and 7".
std::string listed(const std::vector<std::size_t>& ranks) {
  std::string out;
  for (std::size_t i = 0; i < ranks.size(); ++i) {
    if (i > 0) out += i + 1 == ranks.size() ? " and " : ", ";
    out += fmt::format("{}", ranks[i]);
  }
  return out;
}

std::string spots_words(const std::vector<std::size_t>& ranks) {
  return (ranks.size() == 1 ? "Spot " : "Spots ") + listed(ranks);
}

std::string clear_words(std::span<const RankInterval> kept) {
  const int third = std::max(1, static_cast<int>(kept.size()) / 3);
  std::vector<std::size_t> clear;
  for (std::size_t i = 0; i < kept.size(); ++i) {
    if (kept[i].high <= third) clear.push_back(i + 1);
  }
  if (clear.empty()) return "No spot is a clear pick: errors of the survey and of the weights can put others first.";
  return fmt::format("{} {}: among the first {} in nine draws of ten.", spots_words(clear),
                     clear.size() == 1 ? "is a clear pick" : "are clear picks", third);
}

std::string tie_words(std::span<const RankInterval> kept) {
  std::string groups;
  for (std::size_t first = 0; first < kept.size();) {
    std::size_t last = first;
    while (last + 1 < kept.size() && kept[last].ahead < kSurelyAhead) ++last;
    if (last > first) groups += fmt::format("{}{} to {}", groups.empty() ? "" : ", ", first + 1, last + 1);
    first = last + 1;
  }
  if (groups.empty()) return {};
  return fmt::format("Near ties, whose order tells little: {}.", groups);
}

std::string check_words(std::span<const RankInterval> kept) {
  std::vector<std::size_t> order(kept.size());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return kept[a].by_depth > kept[b].by_depth; });
  std::vector<std::size_t> worth;
  for (const std::size_t i : order) {
    if (kept[i].by_depth >= kWorthARank && worth.size() < kMostChecks) worth.push_back(i + 1);
  }
  if (worth.empty()) return {};
  std::sort(worth.begin(), worth.end());
  return fmt::format("Sound the depth at {} {} first: the order turns most on {}.",
                     worth.size() == 1 ? "spot" : "spots", listed(worth), worth.size() == 1 ? "it" : "them");
}

}  // namespace

std::vector<std::string> order_words(std::span<const RankInterval> kept, std::size_t leading) {
  if (kept.size() < 2) return {};
  std::vector<std::string> words{
      fmt::format("Ranks have a 90 % interval among the {} leading places, from the errors of depths, weed edge, level "
                  "and weights.",
                  leading),
      clear_words(kept)};
  for (std::string each : {tie_words(kept), check_words(kept)}) {
    if (!each.empty()) words.push_back(std::move(each));
  }
  return words;
}

}  // namespace castplan
