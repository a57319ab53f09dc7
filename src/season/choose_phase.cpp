// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "castplan/geo/error.hpp"
#include "season/calendar.hpp"
#include "season/daily_series.hpp"
#include "season/grounds.hpp"
#include "season/reach.hpp"
#include "season/water.hpp"

namespace castplan {
namespace {

bool in_spawn(const Phase* spawn, const std::optional<Celsius>& temperature, Trend trend) {
  return spawn && temperature && holds(interval_of(*spawn, trend), *temperature);
}

// Either value of a reading in a bay, or of an estimate, stops for the spawn; else the reading as it stands decides.
const Phase& phase_in(const Profile& profile, const Water& water, Trend trend) {
  const Phase* spawn = phase_named(profile, "spawn");
  for (const auto& either : {water.now, water.lowered, water.raised}) {
    if (in_spawn(spawn, either, trend)) return *spawn;
  }
  return phase_at(profile, *water.now, trend);
}

[[noreturn]] void ask_for_trend(const Profile& profile, const Water& water, const SeasonQuestion& question,
                                const Phase& rising, const Phase& falling) {
  const bool no_date_helps = tropical(question.latitude);
  throw UsageError(fmt::format(
      "{}: water of {} is {} when it rises and {} when it falls; say which: --trend rising or --trend falling{}",
      profile.title, reading_text(*water.now), rising.name, falling.name,
      no_date_helps ? " (between the tropics the date does not tell)" : ", or give --date"));
}

// "Look again when ..." follows the reason.
std::string stop_sentence(const std::string& seen, const Phase& phase) {
  return fmt::format("{} {} Look again: {}", seen, phase.stop_reason, phase.look_again);
}

std::string heat_text(const Profile& profile, const Water& water) {
  return fmt::format("{}: {} {}, at or above the stop of {}.", profile.title,
                     !water.heat_from.empty() ? water.heat_from
                     : water.raised           ? "the water, worked out, may be"
                                              : "the water is",
                     reading_text(*water.heat), stop_line_text(profile));
}

std::string spawn_text(const Profile& profile, const Water& water, const Phase& spawn, Trend trend) {
  const std::string range = phase_range_text(spawn);
  if (in_spawn(&spawn, water.now, trend)) {
    return fmt::format("{}: the water is {}, in the spawn, {}.", profile.title, reading_text(*water.now), range);
  }
  for (const auto& end : {water.lowered, water.raised}) {
    if (!water.raised || !in_spawn(&spawn, end, trend)) continue;
    return fmt::format("{}: worked out as {}, the water may be {}, which is the spawn, {}.", profile.title,
                       reading_text(*water.now), reading_text(*end), range);
  }
  if (in_spawn(&spawn, water.lowered, trend)) {
    return fmt::format("{}: {} in a bay may be {} in the main lake, which is the spawn, {}.", profile.title,
                       reading_text(*water.now), reading_text(*water.lowered), range);
  }
  return fmt::format("{}: the spawn ({}) has begun and holds until the mean of 5 days has {} {}; it is {} now.",
                     profile.title, range, spawn.rising ? "passed" : "fallen below",
                     reading_text(spawn.rising ? spawn.rising->to : spawn.falling->from),
                     water.mean ? reading_text(*water.mean) : "unknown");
}

// Within 2 C of a phase without fishing, in the trend that counts or in either where none is known.
const Phase* stop_near(const Profile& profile, const Water& water) {
  for (const Phase& phase : profile.phases) {
    if (phase.fishable) continue;
    for (const Trend trend : {Trend::rising, Trend::falling}) {
      const auto& interval = interval_of(phase, trend);
      if (!interval || (water.trend && *water.trend != trend)) continue;
      for (const auto& reading : {water.now, water.lowered, water.raised, water.heat}) {
        if (reading && reaches(*reading, interval->from + (-kNearStop)) && reaches(interval->to + kNearStop, *reading))
          return &phase;
      }
    }
  }
  return nullptr;
}

// A reading that is too old to say that the stop has not come.
std::string stale_text(const Profile& profile, const Water& water) {
  if (!water.age || *water.age <= kReadingHolds) return {};
  const Phase* near = stop_near(profile, water);
  if (near == nullptr) return {};
  return fmt::format(
      "{}: the reading of {} is {:.0f} hours away from the day and within {:g} C of a stop ({}, {}), so it counts as "
      "one. Look again: with a reading of the last {:.0f} hours.",
      profile.title, reading_text(std::max(*water.now, *water.heat)), *water.age, kNearStop.value(), near->title,
      phase_range_text(*near), kReadingHolds);
}

// A series that has ended, or has no date to be held against, still tells that the spawn had begun.
bool remembered(const Profile& profile, const Water& water, const SeasonQuestion& question) {
  if (water.memory.empty()) return false;
  const Phase* spawn = phase_named(profile, "spawn");
  const Date date = question.date.value_or(Date(water.memory.back().day));
  if (spawn == nullptr || !spawn_remembered(profile, water.memory, date, question.latitude)) return false;
  const Celsius open = ground_opens(profile, *spawn);
  return spawn->rising ? !reaches(*water.now, open) : reaches(*water.now, open);
}

PhaseChoice held_by_memory(const Profile& profile, const Water& water) {
  const Phase& spawn = *phase_named(profile, "spawn");
  const std::string seen = fmt::format(
      "{}: on {}, the last day of the series, the spawn ({}) had begun; nothing since shows that it is over.",
      profile.title, date_text(Date(water.memory.back().day)), phase_range_text(spawn));
  return {&spawn, stop_sentence(seen, spawn)};
}

}  // namespace

PhaseChoice choose_phase(const Profile& profile, const Water& water, const SeasonQuestion& question) {
  if (profile.stop_from && reaches(*water.heat, profile.stop_from->value)) {
    const Phase& phase = phase_at(profile, std::max(*water.heat, *water.now), water.trend.value_or(Trend::rising));
    return {&phase, stop_sentence(heat_text(profile, water), phase)};
  }
  if (!water.series.empty() && spawn_holds(profile, water.series, question.latitude)) {
    const Phase* spawn = phase_named(profile, "spawn");
    return {spawn, stop_sentence(spawn_text(profile, water, *spawn, water.trend.value_or(Trend::rising)), *spawn)};
  }
  if (water.series.empty() && remembered(profile, water, question)) return held_by_memory(profile, water);
  const Phase& rising = phase_in(profile, water, Trend::rising);
  const Phase& falling = phase_in(profile, water, Trend::falling);
  if (&rising != &falling && !water.trend) ask_for_trend(profile, water, question, rising, falling);
  const Trend trend = water.trend.value_or(Trend::rising);
  const Phase& phase = trend == Trend::rising ? rising : falling;
  if (phase.fishable) return {&phase, stale_text(profile, water)};
  if (phase.name == "spawn") return {&phase, stop_sentence(spawn_text(profile, water, phase, trend), phase)};
  return {&phase, stop_sentence(fmt::format("{}: the water is {}.", profile.title, reading_text(*water.now)), phase)};
}

}  // namespace castplan
