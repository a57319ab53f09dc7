// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "season/check_profile.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "castplan/season/season.hpp"
#include "season/reach.hpp"

namespace castplan {
namespace {

constexpr double kColdest = 0.0;
constexpr double kHottest = 35.0;

// The same slack as `reaches`, so that limits written as 60 F and as 15.555555556 C meet.
bool same(Celsius a, Celsius b) { return reaches(a, b) && reaches(b, a); }

std::vector<const Phase*> by_temperature(const Profile& profile, Trend trend) {
  std::vector<const Phase*> phases;
  for (const Phase& phase : profile.phases) {
    if (interval_of(phase, trend)) phases.push_back(&phase);
  }
  std::stable_sort(phases.begin(), phases.end(), [trend](const Phase* a, const Phase* b) {
    return interval_of(*a, trend)->from < interval_of(*b, trend)->from;
  });
  return phases;
}

void check_cover(const Profile& profile, Trend trend, const std::string& where) {
  const std::string_view side = trend == Trend::rising ? "rising" : "falling";
  const auto phases = by_temperature(profile, trend);
  if (phases.empty()) throw InputError(fmt::format("{}: no phase has a {} interval", where, side));
  const Celsius lowest = interval_of(*phases.front(), trend)->from;
  if (!reaches(Celsius(kColdest), lowest)) {
    throw InputError(fmt::format("{}: {}: {} to {:g} C belongs to no phase; leave out `from` of the coldest", where,
                                 side, kColdest, lowest.value()));
  }
  for (std::size_t i = 0; i + 1 < phases.size(); ++i) {
    const Celsius end = interval_of(*phases[i], trend)->to;
    const Celsius next = interval_of(*phases[i + 1], trend)->from;
    if (same(end, next)) continue;
    if (end < next) {
      throw InputError(fmt::format("{}: {}: {:g} to {:g} C, between {} and {}, belongs to no phase", where, side,
                                   end.value(), next.value(), phases[i]->name, phases[i + 1]->name));
    }
    throw InputError(fmt::format("{}: {}: {:g} C belongs to both {} and {}; each temperature must have one phase",
                                 where, side, next.value(), phases[i]->name, phases[i + 1]->name));
  }
  const Celsius highest = interval_of(*phases.back(), trend)->to;
  if (reaches(Celsius(kHottest), highest)) {
    throw InputError(fmt::format("{}: {}: {:g} to {} C belongs to no phase; leave out `to` of the hottest", where, side,
                                 highest.value(), kHottest));
  }
}

void check_stop(const Profile& profile, const std::string& where) {
  if (!profile.stop_from) return;
  const Celsius stop = profile.stop_from->value;
  if (profile.caution_from && !(profile.caution_from->value < stop)) {
    throw InputError(fmt::format("{}: caution_from must lie below stop_from, {}", where, profile.stop_text));
  }
  for (const Phase& phase : profile.phases) {
    for (const Trend trend : {Trend::rising, Trend::falling}) {
      const auto& interval = interval_of(phase, trend);
      if (phase.fishable && interval && !reaches(stop, interval->to)) {
        throw InputError(fmt::format(
            "{}: phase {} is fishable and reaches beyond stop_from, {}; end it there and give the rest to a "
            "phase with fishable = false",
            where, phase.name, profile.stop_text));
      }
    }
  }
}

// Ground that opens before the spawn is over would be no place to leave alone.
void check_ground(const Profile& profile, const std::string& where) {
  if (!profile.spawning) return;
  const Phase* spawn = phase_named(profile, "spawn");
  if (spawn == nullptr) throw InputError(fmt::format("{}: spawning_ground without a phase named spawn", where));
  const Celsius free = profile.spawning->free_from.value;
  const bool later = spawn->rising ? reaches(free, spawn->rising->to) : reaches(spawn->falling->from, free);
  if (later) return;
  throw InputError(fmt::format("{}: spawning_ground, free_from: {:g} C lies before the end of the spawn, {}", where,
                               free.value(), phase_range_text(*spawn)));
}

void check_names(const Profile& profile, const std::string& where) {
  for (std::size_t i = 0; i < profile.phases.size(); ++i) {
    const Phase& phase = profile.phases[i];
    if (phase_named(profile, phase.name) != &phase) {
      throw InputError(fmt::format("{}: two phases are called {}", where, phase.name));
    }
    if (!phase.rising && !phase.falling) {
      throw InputError(fmt::format("{}: phase {} has neither a rising nor a falling interval", where, phase.name));
    }
  }
}

}  // namespace

void check_profile(const Profile& profile, const std::string& where) {
  check_names(profile, where);
  check_cover(profile, Trend::rising, where);
  check_cover(profile, Trend::falling, where);
  check_stop(profile, where);
  check_ground(profile, where);
}

}  // namespace castplan
