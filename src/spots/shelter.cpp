// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/shelter.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "castplan/grid/sample.hpp"
#include "castplan/season/wind.hpp"
#include "spots/drift.hpp"

namespace castplan {

namespace {

constexpr double kLook = 25;           // metres between the depths that are read upwind
constexpr std::size_t kMostNamed = 5;  // spots a wind: a person wants a few to choose from
// Of the waves at the roughest spot, and of those that the boat minds. Design choice.
constexpr double kWavesInLee = 0.5;
constexpr double kJustUnderWind = 0.99;  // of the caution wind, so that waves alone decide

ShelterNotes::Lee lee_of(const Lake& lake, const WindFetch& fetch, double from, std::span<const Spot> spots,
                         const SpotOptions& options) {
  const MetresPerSecond speed = options.rough.caution_wind * kJustUnderWind;
  const Wind wind{speed, speed, Degrees(from)};
  const Shelter shelter(lake, fetch, wind, options.rough);
  std::vector<std::optional<Waves>> waves;
  Metres highest(0);
  for (const Spot& spot : spots) {
    waves.push_back(shelter.waves(spot.boat));
    if (waves.back()) highest = std::max(highest, waves.back()->height);
  }
  const Metres lee = std::min(highest, options.rough.caution_height) * kWavesInLee;
  std::vector<int> ranks;
  for (std::size_t i = 0; i < spots.size() && ranks.size() < kMostNamed; ++i) {
    if (waves[i] && waves[i]->height <= lee) ranks.push_back(spots[i].rank);
  }
  return {wind.from, std::move(ranks)};
}

}  // namespace

Shelter::Shelter(const Lake& lake, const WindFetch& fetch, const Wind& wind, const RoughLimits& limits)
    : lake_(lake), fetch_(fetch), wind_(wind), limits_(limits), upwind_(down_wind(lake, wind.from) * -1.0) {}

Metres Shelter::mean_depth(XY at) const {
  double sum = 0;
  int count = 0;
  for (double out = 0; out <= kFarthestFetch.value(); out += kLook) {
    const XY place = at + upwind_ * out;
    if (cover_at(lake_, place) != Cover::water) break;
    const auto depth = static_cast<double>(depth_at(lake_, place));
    if (std::isnan(depth)) break;
    sum += depth;
    ++count;
  }
  return Metres(count > 0 ? sum / count : 0);
}

std::optional<Waves> Shelter::waves(XY at) const {
  const auto fetch = fetch_.against(at, upwind_);
  if (!fetch) return std::nullopt;
  return shallow_waves(wind_.speed, *fetch, mean_depth(at));
}

Roughness Shelter::at(XY at) const {
  return roughness_of(waves(at).value_or(Waves{}), wind_.speed, wind_.gust, limits_);
}

std::string Shelter::caution(XY at, Units units) const {
  const auto here = waves(at);
  if (!here) return "The survey ends upwind of here: how high the waves get is not known.";
  if (roughness_of(*here, wind_.speed, wind_.gust, limits_) == Roughness::fair) return {};
  if (here->height < limits_.caution_height) {
    return fmt::format("The wind, {}, is near what the boat can take.", wind_text(wind_, units));
  }
  return fmt::format("Waves of about {} in this wind, near what the boat can take: fish it early or leave it.",
                     length_text(here->height, units));
}

Weather::Weather(const Lake& lake, const SpotOptions& options)
    : fetch_(options.fetch ? options.fetch : std::make_shared<const WindFetch>(lake)) {
  if (options.wind) shelter_.emplace(lake, *fetch_, *options.wind, options.rough);
}

std::optional<Metres> Weather::wave_height(XY place) const {
  const auto waves = shelter_ ? shelter_->waves(place) : std::nullopt;
  return waves ? std::optional(waves->height) : std::nullopt;
}

bool Weather::too_rough_along(const Line& lane) const {
  return std::any_of(lane.begin(), lane.end(), [&](XY place) { return too_rough_at(place); });
}

void Weather::add_caution(XY place, Units units, std::vector<std::string>& cautions) const {
  if (!shelter_) return;
  if (std::string words = shelter_->caution(place, units); !words.empty()) cautions.push_back(std::move(words));
}

ShelterNotes Weather::notes(const Lake& lake, std::span<const Spot> spots, const SpotOptions& options) const {
  if (spots.empty()) return {};
  if (shelter_) return {options.rough.stop_height, {}};
  ShelterNotes notes;
  for (const double from : {0.0, 90.0, 180.0, 270.0}) notes.lees.push_back(lee_of(lake, *fetch_, from, spots, options));
  return notes;
}

std::vector<std::string> shelter_words(const ShelterNotes& notes, Units units, std::string_view letter) {
  if (notes.left_out) {
    return {fmt::format("No spot and no pass is put where this wind raises waves of {} and more.",
                        length_text(*notes.left_out, units))};
  }
  std::vector<std::string> words;
  for (const ShelterNotes::Lee& lee : notes.lees) {
    const std::string way(compass_words(lee.from));
    std::vector<std::string> labels;
    for (const int rank : lee.ranks) labels.push_back(fmt::format("{}{}", letter, rank));
    words.push_back(labels.empty() ? fmt::format("In a wind from the {} no spot lies sheltered.", way)
                                   : fmt::format("Sheltered in a wind from the {}: spot{} {}.", way,
                                                 labels.size() > 1 ? "s" : "", fmt::join(labels, ", ")));
  }
  return words;
}

std::string no_boat_out(const SpotOptions& options) {
  if (!options.wind || roughness_of({}, options.wind->speed, options.wind->gust, options.rough) != Roughness::stop) {
    return {};
  }
  return fmt::format("The wind, {}, is more than the boat can take: stay ashore, or wait for a calmer hour.",
                     wind_text(*options.wind, options.units));
}

}  // namespace castplan
