// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/wind.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <optional>

#include "castplan/geo/coordinate.hpp"
#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

constexpr double kMileAnHour = 0.44704;

constexpr std::pair<std::string_view, double> kUnits[] = {{"m/s", 1},
                                                          {"mps", 1},
                                                          {"km/h", 1 / 3.6},
                                                          {"kmh", 1 / 3.6},
                                                          {"kph", 1 / 3.6},
                                                          {"mph", kMileAnHour},
                                                          {"kt", 1852.0 / 3600},
                                                          {"kts", 1852.0 / 3600},
                                                          {"knots", 1852.0 / 3600},
                                                          {"kn", 1852.0 / 3600}};

constexpr std::array<std::string_view, 16> kPoints{"n", "nne", "ne", "ene", "e", "ese", "se", "sse",
                                                   "s", "ssw", "sw", "wsw", "w", "wnw", "nw", "nnw"};

[[noreturn]] void fail(std::string_view found) {
  throw InputError(
      fmt::format("\"{}\" is no wind; a speed with its unit and where it blows from are needed, such as \"12 "
                  "mph from 230\" or \"5 m/s gusting 9 m/s from NW\"",
                  found));
}

/// Words and numbers of a text, in small letters.
class Words {
 public:
  explicit Words(std::string_view text) : all_(text) {
    for (const char c : text) left_ += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  [[nodiscard]] bool empty() {
    skip_blanks();
    return left_.empty();
  }
  std::optional<double> number() {
    skip_blanks();
    double value = 0;
    const auto [end, error] = std::from_chars(left_.data(), left_.data() + left_.size(), value);
    if (error != std::errc()) return std::nullopt;
    left_.erase(0, static_cast<std::size_t>(end - left_.data()));
    return value;
  }
  std::string word() {
    skip_blanks();
    const std::size_t end = std::min(left_.find(' '), left_.size());
    std::string out = left_.substr(0, end);
    left_.erase(0, end);
    return out;
  }
  std::string rest() {
    skip_blanks();
    std::string out = left_;
    left_.clear();
    while (!out.empty() && out.back() == ' ') out.pop_back();
    return out;
  }
  [[nodiscard]] std::string_view all() const { return all_; }

 private:
  void skip_blanks() { left_.erase(0, std::min(left_.find_first_not_of(' '), left_.size())); }
  std::string_view all_;
  std::string left_;
};

MetresPerSecond speed(Words& words) {
  const auto value = words.number();
  if (!value) fail(words.all());
  const std::string unit = words.word();
  const auto* const found =
      std::find_if(std::begin(kUnits), std::end(kUnits), [&](const auto& known) { return known.first == unit; });
  if (found == std::end(kUnits)) fail(words.all());
  const double metres = *value * found->second;
  if (!(metres >= 0 && metres <= kStrongestWind.value())) {
    throw InputError(
        fmt::format("\"{}\": a wind of {:g} m/s; expected 0 to {:g} m/s", words.all(), metres, kStrongestWind.value()));
  }
  return MetresPerSecond(metres);
}

// "230", "230 degrees", "nw", "the north-west", "southwest"
Degrees direction(Words& words) {
  if (const auto value = words.number()) {
    const std::string rest = words.rest();
    const bool unit = rest.empty() || rest == "deg" || rest == "degrees" || rest == "\xC2\xB0";
    if (!unit || !(*value >= 0 && *value <= 360)) fail(words.all());
    return wrap_bearing(Degrees(*value));
  }
  std::string name = words.rest();
  if (name.rfind("the ", 0) == 0) name.erase(0, 4);
  for (const auto& [word, letter] : {std::pair{"north", "n"}, {"south", "s"}, {"east", "e"}, {"west", "w"}}) {
    for (auto at = name.find(word); at != std::string::npos; at = name.find(word)) {
      name.replace(at, std::string_view(word).size(), letter);
    }
  }
  std::erase_if(name, [](char c) { return c == '-' || c == ' '; });
  const auto* const found = std::find(kPoints.begin(), kPoints.end(), name);
  if (found == kPoints.end()) fail(words.all());
  return Degrees(22.5 * static_cast<double>(found - kPoints.begin()));
}

}  // namespace

Wind parse_wind(std::string_view text) {
  Words words(text);
  Wind wind;
  wind.speed = wind.gust = speed(words);
  std::string next = words.word();
  if (next == "gusting" || next == "gusts" || next == "gust") {
    wind.gust = speed(words);
    if (wind.gust < wind.speed) {
      throw InputError(fmt::format("\"{}\": the gusts are weaker than the wind; give the stronger one as gusts", text));
    }
    next = words.word();
  }
  if (next != "from") fail(text);
  wind.from = direction(words);
  return wind;
}

std::string speed_text(MetresPerSecond speed, Units units) {
  return units == Units::imperial ? fmt::format("{:.0f} mph", speed.value() / kMileAnHour)
                                  : fmt::format("{:.0f} m/s", speed.value());
}

std::string wind_text(const Wind& wind, Units units) {
  std::string out = fmt::format("{} from the {} ({:.0f} degrees)", speed_text(wind.speed, units),
                                compass_words(wind.from), wind.from.value());
  if (wind.gust > wind.speed) out += ", gusts " + speed_text(wind.gust, units);
  return out;
}

const WindReading* strongest(std::span<const WindReading> hours, std::chrono::sys_seconds from,
                             std::chrono::sys_seconds to) {
  const WindReading* best = nullptr;
  for (const WindReading& hour : hours) {
    if (hour.time < from || hour.time >= to) continue;
    if (best == nullptr || std::pair(hour.wind.gust, hour.wind.speed) > std::pair(best->wind.gust, best->wind.speed)) {
      best = &hour;
    }
  }
  return best;
}

}  // namespace castplan
