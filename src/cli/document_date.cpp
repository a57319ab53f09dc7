// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <charconv>
#include <chrono>
#include <cstdlib>
#include <string_view>

#include "castplan/geo/error.hpp"
#include "cli/make_plan.hpp"

namespace castplan {
namespace {

constexpr long long kLastYear = 253402300799;  // the end of the year 9999

std::string moment(std::chrono::sys_seconds at) {
  const auto day = std::chrono::floor<std::chrono::days>(at);
  const std::chrono::hh_mm_ss clock(at - day);
  return fmt::format("{}T{:02}:{:02}:{:02}Z", date_text(Date(day)), clock.hours().count(), clock.minutes().count(),
                     clock.seconds().count());
}

}  // namespace

std::string document_date(const std::optional<Date>& date) {
  if (const char* value = std::getenv("SOURCE_DATE_EPOCH"); value != nullptr && *value != '\0') {
    const std::string_view text(value);
    long long seconds = -1;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seconds);
    if (error != std::errc() || end != text.data() + text.size() || seconds < 0 || seconds > kLastYear) {
      throw UsageError(fmt::format(
          "SOURCE_DATE_EPOCH is \"{}\": give whole seconds since 1970-01-01, such as 1767225600, or unset it", text));
    }
    return moment(std::chrono::sys_seconds(std::chrono::seconds(seconds)));
  }
  if (date) return moment(std::chrono::sys_days(*date));
  return "2000-01-01T00:00:00Z";
}

}  // namespace castplan
