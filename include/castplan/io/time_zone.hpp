// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace castplan {

/// A time zone: how far its clocks are ahead of universal time, from when on.
struct TimeZone {
  struct Clock {
    std::chrono::seconds ahead{};  ///< of UTC; negative west of Greenwich
    std::string letters;           ///< as the database has it: CEST, -03
  };
  struct Change {
    std::chrono::sys_seconds from;
    std::size_t clock;
  };
  std::string name = "UTC";
  std::vector<Clock> clocks = {{std::chrono::seconds(0), "UTC"}};
  std::vector<Change> changes;  ///< ascending; before the first holds the first clock
  /// What holds after the last change, as POSIX writes it: "<-03>3", "CET-1CEST,M3.5.0,M10.5.0/3". Empty: the last
  /// clock.
  std::string rule;
};

/// Reads a zone by its IANA name (America/Halifax, Etc/GMT+3) from a folder of TZif files (RFC 8536); UTC and Etc/GMT+N
/// need no file. Throws InputError for a name that is none, is not in the folder or whose file is damaged.
TimeZone read_time_zone(const std::string& name, const std::string& folder = "/usr/share/zoneinfo");

/// The clock of a moment.
TimeZone::Clock clock_at(const TimeZone& zone, std::chrono::sys_seconds at);

/// The first moment of a day: midnight by the zone's clock, or the first moment after where clocks skip it.
std::chrono::sys_seconds start_of_day(const TimeZone& zone, std::chrono::year_month_day day);

/// A moment as a lake file writes it: "2026-06-10T07:30", with or without seconds, by the zone's clock, or with its own
/// offset ("Z", "-03:00"). None for a date alone and for anything else.
std::optional<std::chrono::sys_seconds> moment_of(const TimeZone& zone, std::string_view text);

/// "05:27", by the zone's clock, seconds rounded to the nearest minute.
std::string clock_text(const TimeZone& zone, std::chrono::sys_seconds at);

}  // namespace castplan
