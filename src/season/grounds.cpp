// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "season/grounds.hpp"

#include <algorithm>

#include "castplan/season/season.hpp"
#include "season/reach.hpp"
#include "season/water.hpp"

namespace castplan {
namespace {

constexpr CelsiusStep kBeyondSpawn{1.4};

/// Temperatures at which the ground is closed, in the trend of the spawn.
struct Closed {
  Trend trend;
  Phase::Interval water;
};

std::optional<Closed> closed_of(const Profile& profile) {
  const Phase* spawn = phase_named(profile, "spawn");
  if (spawn == nullptr || !profile.spawning) return std::nullopt;
  const Celsius open = ground_opens(profile, *spawn);
  if (spawn->rising) return Closed{Trend::rising, {spawn->rising->from + (-kBeforeSpawn), open}};
  return Closed{Trend::falling, {open, spawn->falling->to + kBeforeSpawn}};
}

}  // namespace

Celsius ground_opens(const Profile& profile, const Phase& spawn) {
  if (profile.spawning) return profile.spawning->free_from.value;
  return spawn.rising ? spawn.rising->to + kBeyondSpawn : spawn.falling->from + (-kBeyondSpawn);
}

bool ground_closed(const Profile& profile, const Water& water) {
  const auto closed = closed_of(profile);
  if (!closed || !water.now || (water.trend && *water.trend != closed->trend)) return false;
  Celsius coldest = *water.now, warmest = *water.now;
  for (const auto& other : {water.lowered, water.raised, water.mean}) {
    if (!other) continue;
    coldest = std::min(coldest, *other);
    warmest = std::max(warmest, *other);
  }
  return reaches(warmest, closed->water.from) && !reaches(coldest, closed->water.to);
}

bool ground_closed_in(const Profile& profile, const Phase& phase) {
  const auto closed = closed_of(profile);
  if (!closed) return false;
  const auto& interval = interval_of(phase, closed->trend);
  return interval && !reaches(interval->from, closed->water.to) && !reaches(closed->water.from, interval->to);
}

std::string closed_ground_text(const Profile& profile) {
  const Closed closed = *closed_of(profile);
  Phase waters;
  (closed.trend == Trend::rising ? waters.rising : waters.falling) = closed.water;
  return water_text(waters, closed.trend);
}

bool at_caution(const Profile& profile, const Water& water) {
  return profile.caution_from && reaches(*water.heat, profile.caution_from->value);
}

bool days_are_wanted(const Profile& profile, const Water& water) {
  return profile.stop_from && *water.heat > kAskForDays && water.days_known < kFewDays;
}

bool warm_water_in(const Profile& profile, const Phase& phase) {
  if (!profile.caution_from) return false;
  const auto warm = [&](const std::optional<Phase::Interval>& interval) {
    return !interval || reaches(interval->from, profile.caution_from->value);
  };
  return warm(phase.rising) && warm(phase.falling);
}

}  // namespace castplan
