// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/season.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "castplan/geo/error.hpp"
#include "season/reach.hpp"
#include "season/water.hpp"

namespace castplan {
namespace {

void raise(Advisory& advisory, AdvisoryLevel level, std::string reason) {
  advisory.level = std::max(advisory.level, level);
  if (level != AdvisoryLevel::stop) return advisory.reasons.push_back(std::move(reason));
  // where there is room for few reasons, those that end the day must be among them
  advisory.reasons.insert(advisory.reasons.begin() + advisory.stops++, std::move(reason));
}

const Phase& phase_asked_for(const Profile& profile, const std::string& name) {
  if (const Phase* phase = phase_named(profile, name)) return *phase;
  std::vector<std::string_view> names;
  for (const Phase& phase : profile.phases) names.push_back(phase.name);
  const std::string nearest = nearest_name(name, names);
  throw UsageError(fmt::format("--phase {}: {} has no such phase{}; it has {}", name, profile.name,
                               nearest.empty() ? "" : fmt::format(", did you mean {}?", nearest), listed(names)));
}

std::string caution_text(const Profile& profile, const Water& water) {
  return fmt::format(
      "{}: the water has reached {}, at or above the caution line of {}. Land the fish fast, keep it in the water, "
      "take no photographs in the air, and stop when it gets warmer{}.",
      profile.title, reading_text(*water.heat), reading_text(profile.caution_from->value),
      profile.stop_from ? fmt::format(": the stop is {}", stop_line_text(profile)) : "");
}

std::string days_text(const Profile& profile) {
  return fmt::format(
      "{}: above {} one reading says too little, because the strain of warm days adds up (Booth et al. 2023): note the "
      "surface temperatures of the last five days (water_temps in the lake file), and take care as at the caution line "
      "until they are known.",
      profile.title, reading_text(kAskForDays));
}

// What one species, planned or held, brings into the answer. before: stands before each sentence.
void add_species(const Profile& profile, const PhaseChoice& choice, const Water& water, const std::string& before,
                 SeasonAnswer& answer) {
  const bool caution = at_caution(profile, water), days = days_are_wanted(profile, water);
  if (!choice.stop.empty()) {
    raise(answer.advisory, AdvisoryLevel::stop, before + choice.stop);
  } else {
    if (caution) raise(answer.advisory, AdvisoryLevel::caution, before + caution_text(profile, water));
    if (days) raise(answer.advisory, AdvisoryLevel::caution, before + days_text(profile));
  }
  answer.warm_water = answer.warm_water || caution || days;
  // a cold snap in the middle of the spawn does not open its ground
  const bool spawning = choice.phase->name == "spawn" && profile.spawning.has_value();
  if (spawning || ground_closed(profile, water)) answer.closed_grounds.push_back(&profile);
}

// The lines that a person must watch who has no thermometer in the plan yet.
void add_lines_to_watch(const Profile& profile, std::vector<std::string>& reasons) {
  if (profile.stop_from) {
    reasons.push_back(
        fmt::format("{}: do not fish in water of {} and warmer.", profile.title, stop_line_text(profile)));
  }
  if (profile.caution_from) {
    reasons.push_back(fmt::format("{}: take extra care of the fish from {}.", profile.title,
                                  reading_text(profile.caution_from->value)));
  }
  if (const Phase* spawn = phase_named(profile, "spawn")) {
    reasons.push_back(fmt::format("{}: leave the fish alone during the spawn, {}.", profile.title,
                                  water_text(*spawn, spawn->rising ? Trend::rising : Trend::falling)));
  }
}

// "northern pike"
std::string in_words(std::string name) {
  std::replace(name.begin(), name.end(), '-', ' ');
  return name;
}

std::vector<const Profile*> others(const Profile& profile, const std::vector<const Profile*>& holds) {
  std::vector<const Profile*> result;
  for (const Profile* held : holds) {
    const bool seen =
        std::any_of(result.begin(), result.end(), [&](const Profile* p) { return p->name == held->name; });
    // told apart by what they are, not by name: a copy with a higher stop must not stand in for the fish of the lake
    if (held != &profile && !seen) result.push_back(held);
  }
  return result;
}

void decide_by_temperature(const Profile& profile, const SeasonQuestion& question, const Water& water,
                           SeasonAnswer& answer) {
  const PhaseChoice choice = choose_phase(profile, water, question);
  answer.phases = {choice.phase};
  answer.water_temp = water.now;
  answer.water_temp_source = water.source;
  answer.trend = water.trend;
  answer.valid_for = water_text(*choice.phase, water.trend);
  if (!question.phase.empty() && &phase_asked_for(profile, question.phase) != choice.phase) {
    answer.notes.push_back(fmt::format("The water temperature, {}, is known and makes it {}; --phase {} is not used.",
                                       reading_text(*water.now), choice.phase->name, question.phase));
  }
  if (question.read_in_bay && water.lowered) {
    answer.notes.push_back(
        fmt::format("The reading was taken in a bay or at a ramp; the main lake may be about 1.5 C "
                    "cooler, {}.",
                    reading_text(*water.lowered)));
  }
  add_species(profile, choice, water, "", answer);
  for (const Profile* held : others(profile, question.holds)) {
    add_species(*held, choose_phase(*held, water, question), water,
                fmt::format("The lake also holds {}. ", in_words(held->name)), answer);
  }
}

void decide_without_temperature(const Profile& profile, const SeasonQuestion& question, SeasonAnswer& answer) {
  answer.advisory.reasons.push_back("No water temperature is known; measure it before the first cast.");
  add_lines_to_watch(profile, answer.advisory.reasons);
  for (const Profile* held : others(profile, question.holds)) add_lines_to_watch(*held, answer.advisory.reasons);
  if (question.phase.empty()) {
    for (const Phase& phase : profile.phases) answer.phases.push_back(&phase);
    answer.valid_for = "the whole year: each phase for its own water temperatures";
    return;
  }
  const Phase& phase = phase_asked_for(profile, question.phase);
  answer.phases = {&phase};
  answer.valid_for = water_text(phase, std::nullopt);
  if (phase.fishable && warm_water_in(profile, phase)) {
    answer.warm_water = true;
    raise(answer.advisory, AdvisoryLevel::caution,
          fmt::format("{}: {} lies at or above the caution line of {}. Land the fish fast and keep it in the water.",
                      profile.title, phase.title, reading_text(profile.caution_from->value)));
  }
  if (!phase.fishable) {
    raise(answer.advisory, AdvisoryLevel::stop,
          fmt::format("{}: {}, {}. {} Look again: {}", profile.title, phase.title, phase_range_text(phase),
                      phase.stop_reason, phase.look_again));
  }
}

// The first day of one of the pairs after a date, for "look again".
Date next_opening(Date date, const std::vector<std::pair<std::string, std::string>>& open) {
  std::chrono::sys_days day = date;
  for (int i = 0; i < 4 * 366 * 2; ++i) {  // eight years: 29 February can be that far away
    day += std::chrono::days(1);
    for (const auto& [from, to] : open) {
      if (in_season(Date(day), from, to)) return Date(day);
    }
  }
  return date;
}

void add_open_dates(const SeasonQuestion& question, SeasonAnswer& answer) {
  if (question.open.empty()) return;
  if (!question.date) {
    for (const auto& [from, to] : question.open) in_season(Date(std::chrono::sys_days{}), from, to);  // malformed?
    answer.notes.push_back("Open dates are given but no date is: the plan was not held against them.");
    return;
  }
  std::string pairs;
  for (const auto& [from, to] : question.open) {
    if (in_season(*question.date, from, to)) return;
    pairs += fmt::format("{}{} to {}", pairs.empty() ? "" : ", ", from, to);
  }
  raise(answer.advisory, AdvisoryLevel::stop,
        fmt::format("{} lies outside your own open dates ({}). Look again: from {}, and ask the regulator of the water "
                    "first.",
                    date_text(*question.date), pairs, date_text(next_opening(*question.date, question.open))));
}

void settle(const SeasonQuestion& question, SeasonAnswer& answer) {
  const bool stop = answer.advisory.level == AdvisoryLevel::stop;
  if (question.override_stop.empty()) {
    answer.no_spots = stop;
  } else if (stop) {
    answer.advisory.overridden = true;
    answer.advisory.reasons.push_back(
        fmt::format("The stop was set aside by the user, with this reason: {}", question.override_stop));
  } else {
    answer.notes.push_back("--override-stop had nothing to set aside.");
  }
}

}  // namespace

std::string_view name_of(AdvisoryLevel level) {
  switch (level) {
    case AdvisoryLevel::none:
      return "none";
    case AdvisoryLevel::caution:
      return "caution";
    case AdvisoryLevel::stop:
      return "stop";
  }
  return {};
}

SeasonAnswer decide_season(const Profile& profile, const SeasonQuestion& question) {
  SeasonAnswer answer;
  if (!question.phase.empty()) phase_asked_for(profile, question.phase);
  const Water water = read_water(question, answer.notes);
  if (water.now) {
    decide_by_temperature(profile, question, water, answer);
  } else {
    decide_without_temperature(profile, question, answer);
  }
  answer.species = others(profile, question.holds);
  answer.species.insert(answer.species.begin(), &profile);
  add_open_dates(question, answer);
  settle(question, answer);
  return answer;
}

}  // namespace castplan
