// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/iso_date.hpp"

#include <algorithm>
#include <chrono>
#include <string>

namespace castplan {
namespace {

bool all_digits(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

int number(std::string_view digits) {
  int value = 0;
  for (const char c : digits) value = value * 10 + (c - '0');
  return value;
}

}  // namespace

bool is_iso_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  const std::string_view year = text.substr(0, 4);
  const std::string_view month = text.substr(5, 2);
  const std::string_view day = text.substr(8, 2);
  if (!all_digits(year) || !all_digits(month) || !all_digits(day)) return false;
  return std::chrono::year_month_day(std::chrono::year(number(year)),
                                     std::chrono::month(static_cast<unsigned>(number(month))),
                                     std::chrono::day(static_cast<unsigned>(number(day))))
      .ok();
}

// 2000 had a 29 February
bool is_season_day(std::string_view text) { return text.size() == 5 && is_iso_date("2000-" + std::string(text)); }

}  // namespace castplan
