// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "castplan/season/season.hpp"

inline castplan::SeasonQuestion north() {
  castplan::SeasonQuestion question;
  question.latitude = castplan::Latitude{45.5};
  return question;
}

inline castplan::SeasonQuestion south() {
  castplan::SeasonQuestion question;
  question.latitude = castplan::Latitude{-41.0};
  return question;
}

/// One reading a day, the last on the given date.
inline std::vector<castplan::DatedTemperature> days_up_to(const std::string& last, const std::vector<double>& celsius) {
  std::vector<castplan::DatedTemperature> series;
  auto day = std::chrono::sys_days(castplan::parse_date(last)) - std::chrono::days(celsius.size() - 1);
  for (const double t : celsius) {
    series.push_back({castplan::date_text(castplan::Date(day)), castplan::Celsius(t)});
    day += std::chrono::days(1);
  }
  return series;
}

inline bool mention(const std::vector<std::string>& lines, const std::string& words) {
  for (const auto& line : lines) {
    if (line.find(words) != std::string::npos) return true;
  }
  return false;
}

inline castplan::SeasonAnswer ask(const castplan::SeasonQuestion& question, const char* species = "muskellunge") {
  return castplan::decide_season(castplan::species(species), question);
}

inline std::string only_phase(const castplan::SeasonAnswer& answer) {
  return answer.phases.size() == 1 ? answer.phases[0]->name : std::to_string(answer.phases.size()) + " phases";
}
