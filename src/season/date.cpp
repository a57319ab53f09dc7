// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/date.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

using std::chrono::day;
using std::chrono::month;
using std::chrono::month_day;
using std::chrono::year;

// Digits only: no sign, no blank, no shortened year.
std::optional<unsigned> digits(std::string_view text) {
  unsigned value = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + static_cast<unsigned>(c - '0');
  }
  return value;
}

std::optional<month_day> read_month_day(std::string_view text) {
  if (text.size() != 5 || text[2] != '-') return std::nullopt;
  const auto m = digits(text.substr(0, 2));
  const auto d = digits(text.substr(3, 2));
  if (!m || !d) return std::nullopt;
  const month_day result{month{*m}, day{*d}};
  return result.ok() ? std::optional(result) : std::nullopt;
}

month_day day_of_season(std::string_view text) {
  const auto result = read_month_day(text);
  if (!result) {
    throw InputError(
        fmt::format("\"{}\" is no day of the year; write month and day as MM-DD, for example 05-25", text));
  }
  return *result;
}

}  // namespace

Date parse_date(std::string_view text) {
  if (text.size() == 10 && text[4] == '-') {
    const auto y = digits(text.substr(0, 4));
    // 02-29 passes as a day of the year and is judged with its year below
    const auto rest = read_month_day(text.substr(5));
    if (y && rest) {
      const Date date{year{static_cast<int>(*y)}, rest->month(), rest->day()};
      if (date.ok()) return date;
    }
  }
  throw InputError(fmt::format("\"{}\" is no date; write it as YYYY-MM-DD, for example 2026-06-10", text));
}

std::string date_text(Date date) {
  return fmt::format("{:04d}-{:02d}-{:02d}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

double hours_between(Date day, Date other) {
  return std::abs(static_cast<double>((std::chrono::sys_days(day) - std::chrono::sys_days(other)).count())) * 24;
}

bool in_season(Date date, std::string_view from, std::string_view to) {
  const month_day first = day_of_season(from);
  const month_day last = day_of_season(to);
  const month_day today{date.month(), date.day()};
  if (first <= last) return first <= today && today <= last;
  return today >= first || today <= last;
}

bool holds_on(const std::optional<Date>& date, std::string_view from, std::string_view to) {
  return !date || from.empty() || in_season(*date, from, to);
}

}  // namespace castplan
