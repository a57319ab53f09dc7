// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/odds.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <vector>

namespace castplan {

namespace {

double rate_of(const CatchSurvey& survey) { return survey.fish / survey.hours; }

bool fewer_hours(const CatchSurvey& a, const CatchSurvey& b) { return a.hours < b.hours; }
bool lower_rate(const CatchSurvey& a, const CatchSurvey& b) { return rate_of(a) < rate_of(b); }

// The largest survey that counts every fish; where none does, the largest.
const CatchSurvey& largest(const std::vector<CatchSurvey>& surveys) {
  const CatchSurvey* found = nullptr;
  for (const CatchSurvey& each : surveys) {
    if (each.counted.empty() && (found == nullptr || fewer_hours(*found, each))) found = &each;
  }
  return found != nullptr ? *found : *std::max_element(surveys.begin(), surveys.end(), fewer_hours);
}

// One figure, so that "about 22.4 hours" is not said of what is known to a factor of three.
std::string rounded_hours(double hours) {
  const double step = std::pow(10, std::floor(std::log10(hours)));
  return fmt::format("{:.0f}", std::max(1.0, std::round(hours / step) * step));
}

std::string survey_words(const CatchSurvey& survey) {
  return fmt::format("{:.0f} {} in {:.0f} hours, {}{}", survey.fish, survey.counted.empty() ? "fish" : survey.counted,
                     survey.hours, survey.source.text, survey.source.mark == "memory" ? " (from memory)" : "");
}

std::string lower_case(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) { return std::tolower(c); });
  return text;
}

std::string fish_words(const CatchSurvey& survey) {
  return survey.counted.empty() ? "" : fmt::format(" (counting {} only)", survey.counted);
}

}  // namespace

double chance_of_fish(double rate, double hours) { return -std::expm1(-rate * hours); }

double hours_for_even_chance(double rate) { return std::log(2.0) / rate; }

std::string chance_words(double chance) {
  if (chance > 0.95) return "more than 9 in 10";
  if (chance < 1.0 / 120) return "less than 1 in 100";
  struct Fraction {
    int of, all;
  };
  static constexpr Fraction kPlain[] = {{9, 10}, {3, 4},  {2, 3},  {1, 2},  {1, 3},  {1, 4},  {1, 5},
                                        {1, 6},  {1, 7},  {1, 8},  {1, 9},  {1, 10}, {1, 15}, {1, 20},
                                        {1, 25}, {1, 30}, {1, 40}, {1, 50}, {1, 70}, {1, 100}};
  const auto off = [chance](const Fraction& each) {
    return std::abs(std::log(chance * static_cast<double>(each.all) / each.of));
  };
  const auto* best = std::min_element(std::begin(kPlain), std::end(kPlain),
                                      [&](const Fraction& a, const Fraction& b) { return off(a) < off(b); });
  return fmt::format("{} in {}", best->of, best->all);
}

std::optional<Odds> odds_of(const Profile& profile, double hours) {
  const auto& surveys = profile.catch_surveys;
  if (surveys.empty()) return std::nullopt;
  const auto [low, high] = std::minmax_element(surveys.begin(), surveys.end(), lower_rate);
  const double rate = rate_of(largest(surveys));
  return Odds{hours, rate, rate_of(*low), rate_of(*high),
              fmt::format("{:g} hours: about {}", hours, chance_words(chance_of_fish(rate, hours)))};
}

std::string odds_line(const Profile& profile, double hours) {
  const auto odds = odds_of(profile, hours);
  const std::string fish = lower_case(profile.title);
  if (!odds) return fmt::format("No published catch rate is known for {}: no odds.", fish);
  const CatchSurvey& most = largest(profile.catch_surveys);
  return fmt::format(
      "Odds of a {} for one keen angler anywhere, {} ({} to {} between surveys; {:.0f} fish in {:.0f} "
      "hours, {})",
      fish, odds->words, chance_words(chance_of_fish(odds->rate_low, hours)),
      chance_words(chance_of_fish(odds->rate_high, hours)), most.fish, most.hours, most.source.text);
}

std::string odds_text(const Profile& profile, double hours) {
  const auto odds = odds_of(profile, hours);
  const std::string fish = lower_case(profile.title);
  if (!odds) return fmt::format("No published catch rate is known for {}, so no odds are given.", fish);
  const auto& surveys = profile.catch_surveys;
  const auto [low, high] = std::minmax_element(surveys.begin(), surveys.end(), lower_rate);
  const bool range = surveys.size() > 1;
  std::string out = fmt::format("At least one {} for one angler in {}", fish, odds->words);
  if (range) {
    out += fmt::format("; from one survey to another {}{} to {}{}", chance_words(chance_of_fish(odds->rate_low, hours)),
                       fish_words(*low), chance_words(chance_of_fish(odds->rate_high, hours)), fish_words(*high));
  }
  out += fmt::format(
      ". An even chance takes about {} hours of casting. These are catches an angler-hour of people who kept diaries "
      "or competed, most of them keen: likely too many for others, and not of this lake, this day or these spots. "
      "Source: {}",
      rounded_hours(hours_for_even_chance(odds->rate)), survey_words(largest(surveys)));
  if (range) out += fmt::format("; the range: {}; {}", survey_words(*low), survey_words(*high));
  return out + ".";
}

}  // namespace castplan
