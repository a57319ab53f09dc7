// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/zone_rule.hpp"

#include <cctype>

namespace castplan {
namespace {

using std::chrono::days;
using std::chrono::hours;
using std::chrono::seconds;
using std::chrono::sys_days;
using std::chrono::sys_seconds;
using std::chrono::year;

/// Reads a rule from left to right; every step takes what it knows off the front.
class Rule {
 public:
  explicit Rule(std::string_view text) : left_(text) {}

  [[nodiscard]] bool empty() const { return left_.empty(); }
  [[nodiscard]] char front() const { return left_.empty() ? '\0' : left_.front(); }
  bool take(char c) {
    if (front() != c) return false;
    left_.remove_prefix(1);
    return true;
  }
  std::optional<std::string> letters() {
    const bool quoted = take('<');
    std::string out;
    while (!left_.empty() && (quoted ? front() != '>' : std::isalpha(static_cast<unsigned char>(front())) != 0)) {
      out += front();
      left_.remove_prefix(1);
    }
    if (quoted && !take('>')) return std::nullopt;
    return out.size() < 3 ? std::nullopt : std::optional(out);
  }
  std::optional<int> number() {
    int out = 0;
    std::size_t digits = 0;
    for (; digits < 4 && std::isdigit(static_cast<unsigned char>(front())) != 0; ++digits) {
      out = out * 10 + (front() - '0');
      left_.remove_prefix(1);
    }
    return digits == 0 ? std::nullopt : std::optional(out);
  }
  // [+-]hh[:mm[:ss]]
  std::optional<seconds> time() {
    const bool negative = take('-');
    if (!negative) take('+');
    const auto first = number();
    if (!first) return std::nullopt;
    seconds out = hours(*first);
    for (const int unit : {60, 1}) {
      if (!take(':')) break;
      const auto part = number();
      if (!part) return std::nullopt;
      out += seconds(*part * unit);
    }
    return negative ? -out : out;
  }

 private:
  std::string_view left_;
};

std::optional<sys_days> day_in(Rule& rule, year in) {
  const sys_days first = in / 1 / 1;
  if (rule.take('M')) {
    const auto month = rule.number();
    if (!month || !rule.take('.')) return std::nullopt;
    const auto week = rule.number();
    if (!week || !rule.take('.')) return std::nullopt;
    const auto weekday = rule.number();
    if (!weekday) return std::nullopt;
    const auto of_month = in / static_cast<int>(*month);
    const std::chrono::weekday wanted(static_cast<unsigned>(*weekday));
    if (!of_month.ok() || !wanted.ok() || *week < 1 || *week > 5) return std::nullopt;
    return *week == 5 ? sys_days(of_month / wanted[std::chrono::last])
                      : sys_days(of_month / wanted[static_cast<unsigned>(*week)]);
  }
  const bool without_leap_day = rule.take('J');
  const auto number = rule.number();
  if (!number) return std::nullopt;
  if (!without_leap_day) return first + days(*number);
  return first + days(*number - 1 + (in.is_leap() && *number >= 60 ? 1 : 0));
}

// ",day[/time]": a moment by the local clock, at two o'clock unless it says so
std::optional<sys_seconds> change_in(Rule& rule, year in) {
  if (!rule.take(',')) return std::nullopt;
  const auto day = day_in(rule, in);
  if (!day) return std::nullopt;
  seconds time = hours(2);
  if (rule.take('/')) {
    const auto given = rule.time();
    if (!given) return std::nullopt;
    time = *given;
  }
  return sys_seconds(*day) + time;
}

}  // namespace

std::optional<TimeZone::Clock> clock_by_rule(std::string_view text, sys_seconds at) {
  Rule rule(text);
  const auto standard_letters = rule.letters();
  const auto behind = standard_letters ? rule.time() : std::nullopt;
  if (!behind) return std::nullopt;
  const TimeZone::Clock standard{-*behind, *standard_letters};
  if (rule.empty()) return standard;
  const auto summer_letters = rule.letters();
  if (!summer_letters) return std::nullopt;
  TimeZone::Clock summer{standard.ahead + hours(1), *summer_letters};
  if (rule.front() != ',') {
    const auto summer_behind = rule.time();
    if (!summer_behind) return std::nullopt;
    summer.ahead = -*summer_behind;
  }
  const year in = std::chrono::year_month_day(std::chrono::floor<days>(at + standard.ahead)).year();
  const auto begin = change_in(rule, in);
  const auto end = begin ? change_in(rule, in) : std::nullopt;
  if (!end) return std::nullopt;
  const sys_seconds from = *begin - standard.ahead;
  const sys_seconds to = *end - summer.ahead;
  // south of the equator summer runs over the new year
  const bool is_summer = from < to ? at >= from && at < to : at >= from || at < to;
  return is_summer ? summer : standard;
}

}  // namespace castplan
