// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/time_zone.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "castplan/geo/error.hpp"
#include "io/iso_date.hpp"
#include "io/zone_rule.hpp"

namespace castplan {
namespace {

using std::chrono::seconds;
using std::chrono::sys_seconds;

[[noreturn]] void unknown_name(const std::string& name, const std::string& why) {
  throw InputError(
      fmt::format("time zone \"{}\": {}; expected an IANA name, such as America/Halifax, Europe/Oslo or "
                  "Etc/GMT+3 (three hours behind UTC)",
                  name, why));
}

// Letters, digits and -+_ between slashes: nothing that leads out of the folder.
bool well_formed(const std::string& name) {
  const auto allowed = [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '/' || c == '-' || c == '+' || c == '_';
  };
  return !name.empty() && name.front() != '/' && name.back() != '/' && name.find("//") == std::string::npos &&
         std::all_of(name.begin(), name.end(), allowed);
}

// "Etc/GMT+3": the sign is the one of POSIX, west positive.
bool fixed_zone(TimeZone& zone) {
  if (zone.name == "UTC" || zone.name == "Etc/UTC" || zone.name == "Etc/GMT") {
    zone.clocks = {{seconds(0), "UTC"}};
    return true;
  }
  if (zone.name.rfind("Etc/GMT", 0) != 0 || zone.name.size() < 9) return false;
  const char sign = zone.name[7];
  int hours = 0;
  const char* end = zone.name.data() + zone.name.size();
  const auto [stop, error] = std::from_chars(zone.name.data() + 8, end, hours);
  if ((sign != '+' && sign != '-') || error != std::errc() || stop != end || hours > (sign == '+' ? 12 : 14)) {
    return false;
  }
  const int ahead = sign == '+' ? -hours : hours;
  zone.clocks = {{std::chrono::hours(ahead), fmt::format("{}{:02}", ahead < 0 ? '-' : '+', std::abs(ahead))}};
  return true;
}

/// Big-endian numbers out of a file's bytes.
class Bytes {
 public:
  Bytes(std::string bytes, const std::string& name) : bytes_(std::move(bytes)), name_(name) {}

  long long number(int size) {
    unsigned long long value = size == 4 && (look(0) & 0x80U) != 0 ? ~0ULL : 0ULL;
    for (int i = 0; i < size; ++i) value = value << 8U | look(static_cast<std::size_t>(i));
    at_ += static_cast<std::size_t>(size);
    return static_cast<long long>(value);
  }
  std::size_t count() {
    const long long value = number(4);
    if (value < 0 || static_cast<std::size_t>(value) > bytes_.size()) damaged();
    return static_cast<std::size_t>(value);
  }
  std::size_t byte() {
    const auto value = look(0);
    ++at_;
    return value;
  }
  void skip(std::size_t size) { at_ += size; }
  std::string text(std::size_t size) {
    if (at_ + size > bytes_.size()) damaged();
    at_ += size;
    return bytes_.substr(at_ - size, size);
  }
  std::string line() {
    const auto end = bytes_.find('\n', at_);
    if (end == std::string::npos) damaged();
    return text(end - at_);
  }
  [[noreturn]] void damaged() const {
    throw InputError(fmt::format("time zone \"{}\": its file is damaged; reinstall the time zone data", name_));
  }

 private:
  [[nodiscard]] unsigned char look(std::size_t ahead) const {
    if (at_ + ahead >= bytes_.size()) damaged();
    return static_cast<unsigned char>(bytes_[at_ + ahead]);
  }
  std::string bytes_;
  std::string name_;
  std::size_t at_ = 0;
};

struct Header {
  char version;
  std::size_t is_ut, is_standard, leaps, changes, clocks, letters;
  [[nodiscard]] std::size_t size(std::size_t time_bytes) const {
    return changes * (time_bytes + 1) + clocks * 6 + letters + leaps * (time_bytes + 4) + is_standard + is_ut;
  }
};

Header header(Bytes& bytes) {
  if (bytes.text(4) != "TZif") bytes.damaged();
  Header out{bytes.text(1).front(), 0, 0, 0, 0, 0, 0};
  bytes.skip(15);
  for (std::size_t* field : {&out.is_ut, &out.is_standard, &out.leaps, &out.changes, &out.clocks, &out.letters}) {
    *field = bytes.count();
  }
  return out;
}

// The block of 64-bit times; files of version 1, which have none, are long gone.
void read_block(Bytes& bytes, TimeZone& zone) {
  const Header first = header(bytes);
  if (first.version < '2') bytes.damaged();
  bytes.skip(first.size(4));
  const Header head = header(bytes);
  std::vector<long long> times(head.changes);
  for (long long& time : times) time = bytes.number(8);
  for (std::size_t i = 0; i < head.changes; ++i) zone.changes.push_back({sys_seconds(seconds(times[i])), bytes.byte()});
  std::vector<std::size_t> letters_at;
  zone.clocks.clear();
  for (std::size_t i = 0; i < head.clocks; ++i) {
    zone.clocks.push_back({seconds(bytes.number(4)), ""});
    bytes.skip(1);
    letters_at.push_back(bytes.byte());
  }
  const std::string letters = bytes.text(head.letters);
  for (std::size_t i = 0; i < head.clocks; ++i) {
    if (letters_at[i] >= letters.size()) bytes.damaged();
    zone.clocks[i].letters = letters.c_str() + letters_at[i];
  }
  for (const TimeZone::Change& change : zone.changes) {
    if (change.clock >= zone.clocks.size()) bytes.damaged();
  }
  if (zone.clocks.empty()) bytes.damaged();
  bytes.skip(head.leaps * 12 + head.is_standard + head.is_ut + 1);
  zone.rule = bytes.line();
}

}  // namespace

TimeZone read_time_zone(const std::string& name, const std::string& folder) {
  TimeZone zone;
  zone.name = name;
  if (fixed_zone(zone)) return zone;
  if (!well_formed(name)) unknown_name(name, "is no name of a time zone");
  const std::filesystem::path path = std::filesystem::path(folder) / name;
  std::error_code ignored;
  if (!std::filesystem::is_directory(folder, ignored)) {
    throw InputError(
        fmt::format("time zone \"{}\": this machine has no time zone data; install them (Debian: tzdata), "
                    "or give Etc/GMT+N",
                    name));
  }
  if (!std::filesystem::is_regular_file(path, ignored)) unknown_name(name, "there is none of that name");
  std::ifstream file(path, std::ios::binary);
  const std::string content(std::istreambuf_iterator<char>(file), {});
  if (content.rfind("TZif", 0) != 0) unknown_name(name, "there is none of that name");
  Bytes bytes(content, name);
  read_block(bytes, zone);
  return zone;
}

TimeZone::Clock clock_at(const TimeZone& zone, sys_seconds at) {
  const auto next =
      std::upper_bound(zone.changes.begin(), zone.changes.end(), at,
                       [](sys_seconds time, const TimeZone::Change& change) { return time < change.from; });
  if (next == zone.changes.end() && !zone.rule.empty()) {
    if (const auto clock = clock_by_rule(zone.rule, at)) return *clock;
  }
  return next == zone.changes.begin() ? zone.clocks.front() : zone.clocks[(next - 1)->clock];
}

sys_seconds start_of_day(const TimeZone& zone, std::chrono::year_month_day day) {
  const sys_seconds midnight = std::chrono::sys_days(day);
  // two guesses settle it unless clocks skip midnight; then the moment of the change is the first of the day
  const sys_seconds before = midnight - clock_at(zone, midnight - std::chrono::hours(26)).ahead;
  const sys_seconds guess = midnight - clock_at(zone, before - seconds(1)).ahead;
  if (guess + clock_at(zone, guess).ahead >= midnight) return guess;
  return midnight - clock_at(zone, guess).ahead;
}

std::optional<std::chrono::sys_seconds> moment_of(const TimeZone& zone, std::string_view text) {
  std::optional<std::chrono::seconds> ahead;
  // an offset follows the time: the date before it has hyphens of its own
  const std::size_t sign = text.size() > 16 ? text.find_first_of("+-Zz", 16) : std::string_view::npos;
  if (sign != std::string_view::npos) {
    ahead = std::chrono::seconds(0);
    if (text[sign] == '+' || text[sign] == '-') {
      const auto midnight = utc_moment("2000-01-01T00:00");
      const auto offset = utc_moment("2000-01-01T" + std::string(text.substr(sign + 1)));
      if (!offset) return std::nullopt;
      ahead = (*offset - *midnight) * (text[sign] == '-' ? -1 : 1);
    }
    text = text.substr(0, sign);
  }
  text = text.substr(0, text.find('.'));
  const auto shown = utc_moment(text);
  if (!shown) return std::nullopt;
  if (ahead) return *shown - *ahead;
  // two looks: the clock that holds at the moment itself, not at the same figures of universal time
  const auto first = *shown - clock_at(zone, *shown).ahead;
  return *shown - clock_at(zone, first).ahead;
}

std::string clock_text(const TimeZone& zone, sys_seconds at) {
  const auto local = std::chrono::floor<std::chrono::minutes>(at + seconds(30) + clock_at(zone, at).ahead);
  const auto minutes = (local - std::chrono::floor<std::chrono::days>(local)).count();
  return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

}  // namespace castplan
