// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <iterator>

#include "castplan/geo/error.hpp"
#include "castplan/season/air_model.hpp"
#include "castplan/season/roughness.hpp"
#include "castplan/season/sky.hpp"
#include "cli/make_plan.hpp"
#include "cli/welfare.hpp"

namespace castplan {

namespace {

using std::chrono::days;
using std::chrono::sys_days;

/// From the first moment of the date to that of the next.
std::pair<Instant, Instant> day_of(Date date, const LakeFile& file, const TimeZone& zone, LonLat at) {
  if (file.time_zone.empty()) return mean_solar_day(date, at.lon);
  return {start_of_day(zone, date), start_of_day(zone, Date(sys_days(date) + days(1)))};
}

// Without the lake's own zone a moment of its day may fall on another date of UTC.
std::string moment_text(const TimeZone& zone, Instant at, Date date) {
  const auto local = std::chrono::floor<days>(at + std::chrono::seconds(30) + clock_at(zone, at).ahead);
  const auto off = (local - sys_days(date)).count();
  return clock_text(zone, at) + (off == 0 ? "" : off > 0 ? " the next day" : " the day before");
}

std::string zone_text(const LakeFile& file, const TimeZone& zone, Instant noon) {
  if (file.time_zone.empty()) return "UTC; the lake file names no time_zone";
  const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(clock_at(zone, noon).ahead).count();
  return fmt::format("{}, UTC{}{:02}:{:02}", zone.name, minutes < 0 ? '-' : '+', std::abs(minutes) / 60,
                     std::abs(minutes) % 60);
}

std::string sun_text(const Daylight& light, const TimeZone& zone, Date date, const std::string& zone_words) {
  std::vector<std::string> parts;
  const auto add = [&](const char* name, const std::optional<Instant>& at) {
    if (at) parts.push_back(fmt::format("{} {}", name, moment_text(zone, *at, date)));
  };
  if (light.twilight == Course::up_all_day && light.sun != Course::up_all_day) parts.emplace_back("twilight all night");
  if (light.twilight == Course::down_all_day) parts.emplace_back("dark all day");
  add("first light", light.dawn);
  if (light.sun == Course::up_all_day) parts.emplace_back("the sun does not set");
  if (light.sun == Course::down_all_day) parts.emplace_back("the sun does not rise");
  add("sunrise", light.sunrise);
  add("sunset", light.sunset);
  add("last light", light.dusk);
  return fmt::format("{} ({}; level horizon, civil twilight)", fmt::join(parts, ", "), zone_words);
}

std::string moon_text(const Moonlight& moon, const TimeZone& zone, Date date) {
  std::string out = fmt::format("{}, {:.0f} % lit", name_of(moon.phase), moon.lit * 100);
  if (moon.moonrise) out += ", rises " + moment_text(zone, *moon.moonrise, date);
  if (moon.moonset) out += ", sets " + moment_text(zone, *moon.moonset, date);
  if (moon.moon == Course::up_all_day) out += ", up all day";
  if (moon.moon == Course::down_all_day) out += ", down all day";
  return out +
         "; weighs nothing in the ranking (at most about 5 % more fish at full and new moon, and more fishing "
         "then was not ruled out: Vinson & Angradi 2014); nor do air pressure and passing fronts (no published "
         "measure of what they do is known to us)";
}

// The wind given, else the strongest hour of the day's light, else of the day.
std::optional<Wind> wind_of(const LoadedLake& loaded, const ScoutOptions& options,
                            const std::optional<std::pair<Instant, Instant>>& day, const Daylight& light, Plan& plan) {
  if (options.wind) return options.wind;
  if (loaded.wind.empty()) return std::nullopt;
  if (!day) {
    plan.notes.emplace_back("The wind table is not used: it needs a date (--date).");
    return std::nullopt;
  }
  const WindReading* hour = light.dawn && light.dusk && *light.dawn < *light.dusk
                                ? strongest(loaded.wind, *light.dawn, *light.dusk)
                                : strongest(loaded.wind, day->first, day->second);
  if (hour == nullptr) {
    plan.notes.push_back(
        fmt::format("The wind table is not used: it has no hour of light on {}.", date_text(*options.date)));
    return std::nullopt;
  }
  return hour->wind;
}

std::string boat_words(const LakeFile& file) {
  return file.boat.type == "motor" ? "an open motor boat" : "a " + file.boat.type;
}

void add_wind(const Wind& wind, const LakeFile& file, bool from_table, Units units, Plan& plan) {
  plan.wind = wind;
  plan.wind_text = wind_text(wind, units) + (from_table ? ", the strongest hour of the day's light" : "");
  const RoughLimits limits = rough_limits(file.boat.type);
  const Roughness rough = roughness_of({}, wind.speed, wind.gust, limits);
  if (rough == Roughness::stop) {
    plan.cautions.insert(
        plan.cautions.begin(),
        fmt::format("Too rough for {}: {}. Stay ashore, or wait for a calmer hour.", boat_words(file), plan.wind_text));
  } else if (rough == Roughness::caution) {
    plan.cautions.insert(
        plan.cautions.begin(),
        fmt::format("Wind near what {} can take ({}): keep to the sheltered shore.", boat_words(file), plan.wind_text));
  }
}

void add_layers(const LakeFile& file, const LoadedLake& loaded, const ScoutOptions& options, Plan& plan) {
  LayerQuestion question;
  question.date = options.date;
  question.profile = loaded.profile;
  const auto areas = hypsography(loaded.lake);
  question.areas = areas;
  question.surface = plan.season.water_temp;
  question.coldest_month = coldest_month(loaded.air_temps);
  question.river = file.water == "river";
  if (plan.profile->least_oxygen) question.least_oxygen = plan.profile->least_oxygen->value;
  question.units = options.units;
  plan.layers = decide_layers(question);
  plan.notes.insert(plan.notes.end(), plan.layers.notes.begin(), plan.layers.notes.end());
  for (const auto& [from, to] : plan.layers.without_oxygen) {
    plan.notes.push_back(fmt::format("The profile of {} has under {:g} mg/l of oxygen from {} {}: no spots there.",
                                     plan.layers.profile_date, question.least_oxygen, length_text(from, options.units),
                                     std::isfinite(to.value()) ? "to " + length_text(to, options.units) : "down"));
  }
  if (!loaded.air_temps.empty() && plan.season.water_temp_source.empty()) {
    plan.notes.emplace_back(
        "The air temperatures are not used: they need a date, and an unbroken run of days up to it of three times 5 "
        "days and 1.5 days a metre of mean depth.");
  }
}

// Warm water is coolest about sunrise. Design choice, no source: four hours, to the quarter of an hour before; where
// the sun neither rises nor sets, 8 in the morning by the sun's mean time.
constexpr std::chrono::hours kMorning{4}, kMorningEnds{8};

struct Morning {
  std::string words;
  std::string end;  ///< by the clock, with its zone; empty without a date
};

Morning morning_of(const Daylight& light, const ScoutOptions& options, const TimeZone& zone, LonLat at,
                   const std::string& zone_words) {
  const char* rule = "four hours after sunrise, before it warms (design choice, no source)";
  if (!options.date) return {fmt::format("Warm water: fish in the morning only, until {}.", rule), {}};
  const Instant end =
      light.sunrise ? *light.sunrise + kMorning : mean_solar_day(*options.date, at.lon).first + kMorningEnds;
  const Instant shown = std::chrono::floor<std::chrono::duration<std::int64_t, std::ratio<900>>>(end);
  const std::string clock = fmt::format("{} ({})", moment_text(zone, shown, *options.date), zone_words);
  return {fmt::format("Warm water: fish in the morning only and stop by {}, {}.", clock,
                      light.sunrise ? rule : "8 by the sun, which neither rises nor sets (design choice, no source)"),
          clock};
}

// What is to be done stands before why; what ends the day before both.
void add_measures(const Morning& morning, Plan& plan) {
  if (!plan.season.warm_water || plan.season.no_spots) return;
  plan.morning_only = true;
  if (!morning.end.empty()) plan.be_back = morning.end;
  Advisory& advisory = plan.season.advisory;
  const std::string measures[] = {
      morning.words, "Warm water: do not lift a fish out of the water for a photograph.",
      "Warm water: cool inflows and other refuges of the fish are left alone, and so is open water; no spot is put "
      "there."};
  advisory.reasons.insert(advisory.reasons.begin() + advisory.stops, std::begin(measures), std::end(measures));
}

}  // namespace

TimeZone zone_of(const LakeFile& file) {
  if (file.time_zone.empty()) return {};
  try {
    return read_time_zone(file.time_zone);
  } catch (const InputError& error) {
    throw InputError(
        fmt::format("{}: time_zone: {}", std::filesystem::path(file.path).filename().string(), error.what()));
  }
}

std::optional<SeasonQuestion::Estimate> estimated_water(const ScoutOptions& options, const LoadedLake& loaded) {
  if (!options.date) return std::nullopt;
  if (const auto top = surface_of_profile(loaded.profile, *options.date)) {
    return SeasonQuestion::Estimate{top->temperature, CelsiusStep(0), "profile",
                                    hours_between(parse_date(top->date), *options.date)};
  }
  const auto modelled = water_from_air(loaded.air_temps, *options.date, loaded.lake.mean_depth);
  if (!modelled) return std::nullopt;
  return SeasonQuestion::Estimate{modelled->value, modelled->error, "model", std::nullopt};
}

void describe_day(const LakeFile& file, const LoadedLake& loaded, const ScoutOptions& options, const TimeZone& zone,
                  LonLat at, Plan& plan) {
  add_layers(file, loaded, options, plan);
  std::optional<std::pair<Instant, Instant>> day;
  Daylight light;
  std::string zone_words;
  if (options.date) {
    day = day_of(*options.date, file, zone, at);
    light = daylight_between(at, day->first, day->second);
    const Instant noon = day->first + (day->second - day->first) / 2;
    zone_words = zone_text(file, zone, noon);
    plan.sun_text = sun_text(light, zone, *options.date, zone_words);
    if (light.sunset) {
      const Instant back = *light.sunset - std::chrono::minutes(45);
      plan.be_back =
          fmt::format("{} ({})", moment_text(zone, back, *options.date), file.time_zone.empty() ? "UTC" : zone_words);
    }
    plan.moon_text = moon_text(moonlight_between(at, day->first, day->second), zone, *options.date);
  }
  add_measures(morning_of(light, options, zone, at, zone_words), plan);
  if (const auto wind = wind_of(loaded, options, day, light, plan)) {
    add_wind(*wind, file, !options.wind, options.units, plan);
  }
}

}  // namespace castplan
