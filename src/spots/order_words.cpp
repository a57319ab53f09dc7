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

/// "2", "2 and 5", "B2, B5 and B7".
std::string listed(const std::vector<std::size_t>& ranks, std::string_view letter) {
  std::string out;
  for (std::size_t i = 0; i < ranks.size(); ++i) {
    if (i > 0) out += i + 1 == ranks.size() ? " and " : ", ";
    out += fmt::format("{}{}", letter, ranks[i]);
  }
  return out;
}

std::string clear_words(const OrderNotes& notes, std::string_view letter) {
  const bool one = notes.clear.size() == 1;
  if (notes.clear.empty()) {
    return "No spot is a clear pick: errors of the survey and of the weights can put others first.";
  }
  return fmt::format("{} {} {}: among the first {} in nine draws of ten.", one ? "Spot" : "Spots",
                     listed(notes.clear, letter), one ? "is a clear pick" : "are clear picks", notes.first_third);
}

std::string tie_words(const OrderNotes& notes, std::string_view letter) {
  std::string groups;
  for (const auto& [first, last] : notes.ties) {
    groups += fmt::format("{}{}{} to {}{}", groups.empty() ? "" : ", ", letter, first, letter, last);
  }
  return fmt::format("Near ties, whose order tells little: {}.", groups);
}

std::string sound_words(const OrderNotes& notes, std::string_view letter) {
  const bool one = notes.sound.size() == 1;
  return fmt::format("Sound the depth at {} {} first: the order turns most on {}.", one ? "spot" : "spots",
                     listed(notes.sound, letter), one ? "it" : "them");
}

std::vector<std::pair<std::size_t, std::size_t>> ties_of(std::span<const RankInterval> kept) {
  std::vector<std::pair<std::size_t, std::size_t>> ties;
  for (std::size_t first = 0; first < kept.size();) {
    std::size_t last = first;
    while (last + 1 < kept.size() && kept[last].ahead < kSurelyAhead) ++last;
    if (last > first) ties.emplace_back(first + 1, last + 1);
    first = last + 1;
  }
  return ties;
}

std::vector<std::size_t> to_sound(std::span<const RankInterval> kept) {
  std::vector<std::size_t> order(kept.size());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return kept[a].by_depth > kept[b].by_depth; });
  std::vector<std::size_t> worth;
  for (const std::size_t i : order) {
    if (kept[i].by_depth >= kWorthARank && worth.size() < kMostChecks) worth.push_back(i + 1);
  }
  std::sort(worth.begin(), worth.end());
  return worth;
}

}  // namespace

OrderNotes order_notes(std::span<const RankInterval> kept, std::size_t leading) {
  OrderNotes notes;
  if (kept.size() < 2) return notes;
  notes.leading = leading;
  notes.first_third = std::max(1, static_cast<int>(kept.size()) / 3);
  for (std::size_t i = 0; i < kept.size(); ++i) {
    if (kept[i].high <= notes.first_third) notes.clear.push_back(i + 1);
  }
  notes.ties = ties_of(kept);
  notes.sound = to_sound(kept);
  return notes;
}

std::vector<std::string> order_words(const OrderNotes& notes, std::string_view letter) {
  if (notes.leading == 0) return {};
  std::vector<std::string> words{
      fmt::format("Ranks have a 90 % interval among the {} leading places, from the errors of depths, weed edge, level "
                  "and weights.",
                  notes.leading),
      clear_words(notes, letter)};
  if (!notes.ties.empty()) words.push_back(tie_words(notes, letter));
  if (!notes.sound.empty()) words.push_back(sound_words(notes, letter));
  return words;
}

}  // namespace castplan
