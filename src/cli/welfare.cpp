// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/welfare.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "castplan/geo/planar.hpp"

namespace castplan {

namespace {

using std::chrono::sys_days;

// A fan of casts and as much again: a fish that has come to cool water is not fished for from beside it. Design choice.
constexpr Metres kRefuge(50);

// What is not known to be warm may be what the fish live by when the lake is not.
bool is_refuge(const Feature& feature) {
  return feature.kind == Kind::inflow && std::get<Structure>(feature.details).attribute != "warm";
}

bool ground_is_closed(const SeasonAnswer& season, const Profile& species, const Phase& phase) {
  if (!season.water_temp) return ground_closed_in(species, phase);
  const auto& closed = season.closed_grounds;
  return std::find(closed.begin(), closed.end(), &species) != closed.end();
}

bool is_closed(const LikelyGround& ground, const SeasonAnswer& season, const Phase& phase) {
  return std::any_of(season.species.begin(), season.species.end(), [&](const Profile* species) {
    return species->name == ground.species && ground_is_closed(season, *species, phase);
  });
}

void append(Polygons& all, const Polygons& more) { all.insert(all.end(), more.begin(), more.end()); }

}  // namespace

std::optional<double> age_of_reading(const LakeFile& file, const ScoutOptions& options, const TimeZone& zone,
                                     std::vector<std::string>& notes) {
  if (options.water_temp || !file.conditions.water_temp || !options.date) return std::nullopt;
  const std::string& taken = file.conditions.water_temp_taken;
  if (taken.empty()) {
    notes.push_back(
        fmt::format("When the water temperature was read is not said (water_temp_taken): it counts as read on {}.",
                    date_text(*options.date)));
    return std::nullopt;
  }
  const auto at = moment_of(zone, taken);
  if (!at) return hours_between(parse_date(taken.substr(0, 10)), *options.date);
  const auto noon = start_of_day(zone, *options.date) + std::chrono::hours(12);
  return std::abs(static_cast<double>((noon - *at).count())) / 3600;
}

bool left_alone_when_warm(const Plan& plan, const Phase& phase) {
  if (plan.season.water_temp) return plan.season.warm_water;
  return std::any_of(plan.season.species.begin(), plan.season.species.end(),
                     [&](const Profile* each) { return warm_water_in(*each, phase); });
}

Phase without_refuges(const Phase& phase, const Plan& plan) {
  const auto& thermocline = plan.layers.thermocline;
  // fish with a heat stop live above the thermocline and flee below it; those without live there
  const bool flee = std::any_of(plan.season.species.begin(), plan.season.species.end(),
                                [](const Profile* each) { return each->stop_from.has_value(); });
  if (!thermocline || !flee || !left_alone_when_warm(plan, phase)) return phase;
  const std::array<std::pair<Metres, Metres>, 1> below{{{thermocline->expected, Metres(HUGE_VAL)}}};
  Phase out = phase;
  out.depth =
      without_depths(phase.depth, below, "0 below the thermocline, the refuge of fish from warm water (design)");
  return out;
}

Polygons left_alone(const Plan& plan, const Phase& phase) {
  Polygons all;
  const bool warm = left_alone_when_warm(plan, phase);
  for (const Feature& feature : plan.features) {
    if (warm && is_refuge(feature)) append(all, buffered(feature.geometry, kRefuge));
    const auto* ground = std::get_if<LikelyGround>(&feature.details);
    if (ground != nullptr && is_closed(*ground, plan.season, phase)) append(all, std::get<Polygons>(feature.geometry));
  }
  return all;
}

std::vector<GroundWanted> grounds_wanted(const SeasonAnswer& season) {
  std::vector<GroundWanted> wanted;
  for (const Profile* species : season.species) {
    if (!species->spawning) continue;
    // a profile of the user's own may go by the name of a held one: the ground is looked for once
    const bool seen = std::any_of(wanted.begin(), wanted.end(),
                                  [&](const GroundWanted& other) { return other.species == species->name; });
    if (seen) continue;
    const bool asked = std::any_of(season.phases.begin(), season.phases.end(),
                                   [&](const Phase* phase) { return ground_is_closed(season, *species, *phase); });
    if (!asked) continue;
    const SpawningGround& ground = *species->spawning;
    wanted.push_back({species->name, species->title, ground.habitat, ground.reason, closed_ground_text(*species)});
  }
  return wanted;
}

namespace {

void add_ground_notes(Plan& plan) {
  for (const GroundWanted& wanted : grounds_wanted(plan.season)) {
    const auto count = std::count_if(plan.features.begin(), plan.features.end(), [&](const Feature& feature) {
      const auto* ground = std::get_if<LikelyGround>(&feature.details);
      return ground != nullptr && ground->species == wanted.species;
    });
    plan.notes.push_back(fmt::format(
        "{}: {} of likely spawning ground by the look of the floor, drawn as {} to leave alone; no spot and no cast of "
        "this plan lies there in {}. Where the fish really spawn, you see on the water: leave that alone too.",
        wanted.title,
        count == 0   ? "no piece"
        : count == 1 ? "1 piece"
                     : fmt::format("{} pieces", count),
        count == 1 ? "a place" : "places", wanted.waters));
  }
}

}  // namespace

void add_welfare_notes(Plan& plan) {
  add_ground_notes(plan);
  const bool warm = std::any_of(plan.season.phases.begin(), plan.season.phases.end(),
                                [&](const Phase* phase) { return left_alone_when_warm(plan, *phase); });
  if (!warm || plan.season.no_spots) return;
  std::vector<std::string> names;
  for (const Feature& feature : plan.features) {
    if (is_refuge(feature)) names.push_back(feature.name);
  }
  const char* when = plan.season.water_temp ? "The water is warm" : "In phases of warm water";
  if (!names.empty()) {
    plan.notes.push_back(
        fmt::format("{}: no spot lies within {} of {}, where water comes in that is cool or not known to be warm. Fish "
                    "that shelter "
                    "there are left alone.",
                    when, distance_text(kRefuge, plan.units), fmt::join(names, ", ")));
  } else {
    plan.notes.push_back(fmt::format(
        "{}: keep away from springs and cool inflows that you know of; this plan has none on its map.", when));
  }
}

void add_depth_cautions(std::vector<Spot>& spots, const Profile& profile, Units units) {
  if (!profile.deep_release) return;
  const Metres limit = profile.deep_release->value;
  for (Spot& spot : spots) {
    if (!(spot.target_depth > limit)) continue;
    spot.cautions.push_back(fmt::format(
        "Deep water, {}: a fish that comes up from more than {} may not recover. Fish shallower, or let it go at once "
        "without holding it ({}).",
        length_text(spot.target_depth, units), length_text(limit, units), profile.deep_release->source.text));
  }
}

void add_age_of_rules(Plan& plan, const LakeFile& file, const std::optional<Date>& date) {
  const std::string& checked = file.rules.checked;
  if (file.rules.text.empty() || !date) return;
  if (checked.empty()) {
    plan.cautions.push_back("When your rules were last checked is not said: check them before you go.");
    return;
  }
  const Date seen = parse_date(checked);
  Date year_on = seen + std::chrono::years(1);
  if (!year_on.ok()) year_on = year_on.year() / std::chrono::March / 1;
  if (sys_days(*date) <= sys_days(year_on)) return;
  plan.cautions.push_back(fmt::format("Your rules were checked on {}, more than 12 months before {}: check them again.",
                                      checked, date_text(*date)));
}

}  // namespace castplan
