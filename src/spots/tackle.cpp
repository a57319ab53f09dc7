// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/tackle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/spots/casting.hpp"
#include "spots/target.hpp"

namespace castplan {

namespace {

constexpr std::size_t kMostLures = 3;
// values at which cover and deep water are as good as absent: the ends of what is looked for
constexpr double kNoCover = 60, kFar = 150;
constexpr Metres kAboveFloor(0.2);  // a lure closer than this drags

std::string weed_words(double density) {
  if (density >= 0.7) return "thick weeds";
  return density >= 0.3 ? "thinned weeds" : "few weeds";
}

// What a reason adds to the sentence; empty when it says nothing a person would miss.
std::string part_words(const Reason& reason, Units units) {
  const auto near = [&] { return distance_text(Metres(reason.value), units); };
  if (reason.factor == words_of(Factor::edge)) {
    return reason.unit == "weed density" ? weed_words(reason.value) : fmt::format("{:.0f} % grade", reason.value);
  }
  if (reason.factor == words_of(Factor::deep_water) && reason.value < kFar) {
    return fmt::format("water {} deeper within {}", distance_text(Metres(2), units), near());
  }
  if (reason.factor == words_of(Factor::cover) && reason.value < kNoCover) {
    return reason.value < 1 ? "on the cover itself" : fmt::format("cover {} away", near());
  }
  if (reason.factor == words_of(Factor::waves) && reason.value >= 0.1) {
    return fmt::format("waves of {} on it", length_text(Metres(reason.value), units));
  }
  return {};
}

std::vector<Presentation> running_above(const Phase& phase, Metres depth) {
  std::vector<Presentation> found;
  for (const Lure& lure : phase.lures) {
    if (found.size() == kMostLures) break;
    if (lure.run_from > depth - kAboveFloor) continue;
    std::string name(name_of(lure.lure));
    if (!lure.kind.empty()) name = lure.kind + " " + name;
    found.push_back({std::move(name), lure.run_from, std::min(lure.run_to, depth - kAboveFloor), lure.retrieve});
  }
  return found;
}

}  // namespace

std::string kind_words(const std::vector<Kind>& kinds) {
  std::string words;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    if (i > 0) words += i + 1 == kinds.size() ? " and " : ", ";
    words += row_of(kinds[i]).label;
  }
  return words;
}

std::string why_words(const std::vector<Reason>& why, Units units) {
  std::string words;
  for (const Reason& reason : why) {
    const std::string part = part_words(reason, units);
    if (!part.empty()) words += "; " + part;
  }
  return words;
}

bool is_cold(const Phase& phase) {
  return (phase.rising && phase.rising->to <= Celsius(10)) || (!phase.rising && phase.falling->to <= Celsius(12));
}

std::vector<Presentation> presentations(const Phase& phase, Metres room, Metres floor) {
  std::vector<Presentation> clear = running_above(phase, room);
  return clear.empty() ? running_above(phase, floor) : clear;
}

int casts_for(std::size_t kinds) { return std::min(14, 6 + 2 * static_cast<int>(kinds > 0 ? kinds - 1 : 0)); }

double minutes_for(int casts, Metres cast, bool cold) {
  const Seconds each = cast_time(cast, cold ? kRetrieveCold : kRetrieve, kNoviceOverhead);
  return std::round(casts * each.value() / 60);
}

std::string reason_words(const Spot& spot, Units units) {
  return fmt::format("{} of water at the {}{}.", length_text(spot.target_depth, units), kind_words(spot.kinds),
                     why_words(spot.why, units));
}

}  // namespace castplan
