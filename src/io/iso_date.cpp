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

std::optional<std::chrono::sys_seconds> utc_moment(std::string_view text) {
  if (!text.empty() && (text.back() == 'Z' || text.back() == 'z')) text.remove_suffix(1);
  if (text.size() != 16 && text.size() != 19) return std::nullopt;
  if (!is_iso_date(text.substr(0, 10)) || (text[10] != 'T' && text[10] != ' ') || text[13] != ':') return std::nullopt;
  const std::string_view hour = text.substr(11, 2), minute = text.substr(14, 2);
  const std::string_view second = text.size() == 19 ? text.substr(17) : "00";
  if (text.size() == 19 && text[16] != ':') return std::nullopt;
  if (!all_digits(hour) || !all_digits(minute) || !all_digits(second)) return std::nullopt;
  if (number(hour) > 23 || number(minute) > 59 || number(second) > 59) return std::nullopt;
  const std::chrono::year_month_day day(std::chrono::year(number(text.substr(0, 4))),
                                        std::chrono::month(static_cast<unsigned>(number(text.substr(5, 2)))),
                                        std::chrono::day(static_cast<unsigned>(number(text.substr(8, 2)))));
  return std::chrono::sys_days(day) + std::chrono::hours(number(hour)) + std::chrono::minutes(number(minute)) +
         std::chrono::seconds(number(second));
}

}  // namespace castplan
