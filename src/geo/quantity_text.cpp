// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/geo/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <span>
#include <vector>

#include "castplan/geo/coordinate.hpp"
#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

constexpr double kFoot = 0.3048;
constexpr double kUsFoot = 1200.0 / 3937.0;
constexpr double kFathom = 6.0 * kFoot;

template <class Meaning>
struct UnitName {
  std::string_view name;  ///< words apart by one space; capitals only where people write them
  Meaning means;
};

/// The first name of each unit is the one that messages show.
constexpr auto kLengths = std::to_array<UnitName<double>>({
    {"m", 1.0},
    {"metre", 1.0},
    {"metres", 1.0},
    {"meter", 1.0},
    {"meters", 1.0},
    {"km", 1e3},
    {"kilometre", 1e3},
    {"kilometres", 1e3},
    {"kilometer", 1e3},
    {"kilometers", 1e3},
    {"cm", 1e-2},
    {"mm", 1e-3},
    {"ft", kFoot},
    {"foot", kFoot},
    {"feet", kFoot},
    {"in", kFoot / 12.0},
    {"inch", kFoot / 12.0},
    {"inches", kFoot / 12.0},
    {"yd", 3.0 * kFoot},
    {"yard", 3.0 * kFoot},
    {"yards", 3.0 * kFoot},
    {"fathom", kFathom},
    {"fathoms", kFathom},
    {"fm", kFathom},
    {"mi", 5280.0 * kFoot},
    {"mile", 5280.0 * kFoot},
    {"miles", 5280.0 * kFoot},
});

enum class TemperatureUnit { celsius, fahrenheit };
constexpr auto kTemperatures = std::to_array<UnitName<TemperatureUnit>>({
    {"C", TemperatureUnit::celsius},
    {"degc", TemperatureUnit::celsius},
    {"deg c", TemperatureUnit::celsius},
    {"\u00b0c", TemperatureUnit::celsius},
    {"celsius", TemperatureUnit::celsius},
    {"F", TemperatureUnit::fahrenheit},
    {"degf", TemperatureUnit::fahrenheit},
    {"deg f", TemperatureUnit::fahrenheit},
    {"\u00b0f", TemperatureUnit::fahrenheit},
    {"fahrenheit", TemperatureUnit::fahrenheit},
});

constexpr auto kDepthUnits = std::to_array<UnitName<DepthUnit>>({
    {"m", DepthUnit::metre},
    {"metre", DepthUnit::metre},
    {"metres", DepthUnit::metre},
    {"meter", DepthUnit::metre},
    {"meters", DepthUnit::metre},
    {"ft", DepthUnit::foot},
    {"foot", DepthUnit::foot},
    {"feet", DepthUnit::foot},
    {"international foot", DepthUnit::foot},
    {"international feet", DepthUnit::foot},
    {"US survey foot", DepthUnit::us_foot},
    {"us survey feet", DepthUnit::us_foot},
    {"u.s. survey foot", DepthUnit::us_foot},
    {"foot us", DepthUnit::us_foot},
    {"us foot", DepthUnit::us_foot},
    {"us ft", DepthUnit::us_foot},
    {"ftus", DepthUnit::us_foot},
    {"fathom", DepthUnit::fathom},
    {"fathoms", DepthUnit::fathom},
    {"fm", DepthUnit::fathom},
});

bool is_blank(char letter) { return letter == ' ' || letter == '\t' || letter == '\r' || letter == '\n'; }

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
  return text;
}

/// Small letters, and one space for any run of blanks, hyphens and underscores; independent of the locale.
std::string plain(std::string_view text) {
  std::string result;
  for (char letter : trimmed(text)) {
    if (is_blank(letter) || letter == '-' || letter == '_') {
      if (!result.empty() && result.back() != ' ') result += ' ';
    } else {
      result += letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    }
  }
  return result;
}

template <class Meaning, std::size_t count>
std::optional<Meaning> meaning(const std::array<UnitName<Meaning>, count>& units, std::string_view written) {
  const std::string name = plain(written);
  const auto found =
      std::find_if(units.begin(), units.end(), [&name](const auto& unit) { return plain(unit.name) == name; });
  if (found == units.end()) return std::nullopt;
  return found->means;
}

/// "known are m, km, ft", one name a unit, and a guess at what was meant.
template <class Meaning, std::size_t count>
std::string known(const std::array<UnitName<Meaning>, count>& units, std::string_view written) {
  std::vector<std::string_view> first_names;
  std::vector<std::string_view> all_names;
  std::vector<Meaning> seen;
  for (const auto& unit : units) {
    all_names.push_back(unit.name);
    if (std::find(seen.begin(), seen.end(), unit.means) != seen.end()) continue;
    seen.push_back(unit.means);
    first_names.push_back(unit.name);
  }
  const std::string guess = written.empty() ? std::string() : nearest_name(plain(written), all_names);
  return fmt::format("known are {}{}", listed(first_names), guess.empty() ? "" : "; did you mean " + guess + "?");
}

struct NumberAndUnit {
  double number{};
  std::string_view unit;
};

/// Splits "9ft" into 9 and "ft". what and example serve the message, as in: length "9": ... write for example 9 ft.
template <class Meaning, std::size_t count>
NumberAndUnit split(std::string_view text, std::string_view what, std::string_view example,
                    const std::array<UnitName<Meaning>, count>& units) {
  std::string_view rest = trimmed(text);
  if (rest.size() > 1 && rest.front() == '+' && rest[1] != '-') rest.remove_prefix(1);
  NumberAndUnit read;
  const auto [end, problem] = std::from_chars(rest.data(), rest.data() + rest.size(), read.number);
  if (problem != std::errc() || !std::isfinite(read.number)) {
    throw InputError(
        fmt::format("{} \"{}\": no number at its start; write a number and its unit, for example {} (units {})", what,
                    text, example, known(units, "")));
  }
  rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
  read.unit = trimmed(rest);
  if (read.unit.empty()) {
    throw InputError(fmt::format("{} \"{}\": the bare number {} has no unit; write for example {} (units {})", what,
                                 text, read.number, example, known(units, "")));
  }
  return read;
}

template <class Meaning, std::size_t count>
[[noreturn]] void refuse_unit(std::string_view text, std::string_view what, std::string_view unit,
                              std::string_view example, const std::array<UnitName<Meaning>, count>& units) {
  const std::string found =
      unit.starts_with(',') ? "a comma inside the number; use a point" : fmt::format("unknown unit \"{}\"", unit);
  throw InputError(
      fmt::format("{} \"{}\": {}; write for example {} (units {})", what, text, found, example, known(units, unit)));
}

/// No "-0.0" in what people read.
double without_minus_zero(double value, double step) { return std::abs(value) < step / 2.0 ? 0.0 : value; }

}  // namespace

Metres parse_length(std::string_view text) {
  constexpr std::string_view kWhat = "length";
  constexpr std::string_view kExample = "9ft or 2.7 m";
  const NumberAndUnit read = split(text, kWhat, kExample, kLengths);
  if (const auto metres = meaning(kLengths, read.unit)) return Metres(read.number * *metres);
  // a survey foot differs by 2 ppm; files name it, so it must be readable here too
  if (meaning(kDepthUnits, read.unit) == DepthUnit::us_foot) return Metres(read.number * kUsFoot);
  if (meaning(kDepthUnits, read.unit) == DepthUnit::foot) return Metres(read.number * kFoot);
  refuse_unit(text, kWhat, read.unit, kExample, kLengths);
}

Celsius parse_temperature(std::string_view text) {
  constexpr std::string_view kWhat = "temperature";
  constexpr std::string_view kExample = "58F or 14.5C";
  const NumberAndUnit read = split(text, kWhat, kExample, kTemperatures);
  const auto unit = meaning(kTemperatures, read.unit);
  if (!unit) refuse_unit(text, kWhat, read.unit, kExample, kTemperatures);
  return *unit == TemperatureUnit::fahrenheit ? fahrenheit(read.number) : Celsius(read.number);
}

std::string unit_text(DepthUnit unit) {
  switch (unit) {
    case DepthUnit::metre:
      return "m";
    case DepthUnit::foot:
      return "ft";
    case DepthUnit::us_foot:
      return "US survey foot";
    default:
      return "fathom";
  }
}

DepthUnit parse_depth_unit(std::string_view text) {
  if (const auto unit = meaning(kDepthUnits, text)) return *unit;
  throw InputError(fmt::format("depth unit \"{}\": unknown; write for example m or ft ({})", text,
                               known(kDepthUnits, trimmed(text))));
}

double metres_per(DepthUnit unit) {
  switch (unit) {
    case DepthUnit::foot:
      return kFoot;
    case DepthUnit::us_foot:
      return kUsFoot;
    case DepthUnit::fathom:
      return kFathom;
    case DepthUnit::metre:
      break;
  }
  return 1.0;
}

std::string length_text(Metres length, Units units) {
  if (units == Units::imperial) return fmt::format("{:.0f} ft", without_minus_zero(std::round(to_feet(length)), 1.0));
  return fmt::format("{:.1f} m", without_minus_zero(length.value(), 0.1));
}

std::string length_range_text(Metres from, Metres to, Units units) {
  const std::string first = length_text(from, units), last = length_text(to, units);
  return first == last ? first : first + " to " + last;
}

std::string distance_text(Metres distance, Units units) {
  return units == Units::imperial ? fmt::format("{:.0f} ft", to_feet(distance))
                                  : fmt::format("{:.0f} m", distance.value());
}

std::string temperature_text(Celsius temperature, Units units) {
  if (units == Units::imperial) {
    return fmt::format("{:.0f} F", without_minus_zero(std::round(to_fahrenheit(temperature)), 1.0));
  }
  return fmt::format("{:.1f} C", without_minus_zero(temperature.value(), 0.1));
}

std::string compass_words(Degrees bearing) {
  constexpr auto kNames = std::to_array<std::string_view>({"north", "north-northeast", "northeast", "east-northeast",
                                                           "east", "east-southeast", "southeast", "south-southeast",
                                                           "south", "south-southwest", "southwest", "west-southwest",
                                                           "west", "west-northwest", "northwest", "north-northwest"});
  constexpr double kSector = 360.0 / 16.0;
  const double sector = std::floor(wrap_bearing(bearing).value() / kSector + 0.5);
  return std::string(kNames[static_cast<std::size_t>(sector) % kNames.size()]);
}

}  // namespace castplan
