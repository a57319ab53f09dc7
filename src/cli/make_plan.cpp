// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/make_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <tuple>
#include <utility>

#include "castplan/geo/error.hpp"
#include "castplan/season/clarity.hpp"
#include "castplan/season/factors_of_day.hpp"
#include "cli/planned_species.hpp"
#include "cli/survey_lake.hpp"
#include "cli/welfare.hpp"
#include "cli/what_if.hpp"

namespace castplan {

namespace {

SeasonAnswer season_for(const ScoutOptions& options, const LakeFile& file, const LoadedLake& loaded,
                        const Profile& profile, const TimeZone& zone, Plan& plan) {
  SeasonQuestion question;
  question.reading_age = age_of_reading(file, options, zone, plan.notes);
  question.date = options.date;
  question.water_temp = options.water_temp ? options.water_temp : file.conditions.water_temp;
  question.read_in_bay = !options.water_temp && file.conditions.water_temp_at != "main";
  question.series = loaded.water_temps;
  question.trend = options.trend;
  question.phase = options.phase;
  question.latitude = middle_of(loaded.lake).lat;
  question.estimate = estimated_water(options, loaded);
  question.open = file.rules.open;
  question.holds = held_species(file, profile, plan);
  question.override_stop = options.override_stop;
  return decide_season(profile, question);
}

// Closures follow the date; ramps follow the water.
void set_for_the_day(LoadedLake& loaded, const LakeFile& file, const ScoutOptions& options) {
  for (MappedClosure& closure : loaded.closures) {
    closure.active = holds_on(options.date, closure.from, closure.to);
  }
  for (MappedLaunch& launch : loaded.launches) {
    launch.dry = launch.usable_above && file.raster.surface && *file.raster.surface < *launch.usable_above;
  }
}

void describe(Plan& plan, const LakeFile& file, const LoadedLake& loaded, const ScoutOptions& options) {
  plan.lake_name = file.name;
  plan.document_date = document_date(options.date);
  plan.surface_text = loaded.surface_text;
  plan.source = file.source;
  plan.licence = file.licence;
  plan.surveyed = file.surveyed;
  plan.rules_text = file.rules.text;
  plan.rules_source = file.rules.source;
  plan.rules_checked = file.rules.checked;
  plan.notes.insert(plan.notes.end(), loaded.notes.begin(), loaded.notes.end());
  plan.notes.insert(plan.notes.end(), plan.season.notes.begin(), plan.season.notes.end());
  for (const std::string_view kind : structure_kinds()) {
    const auto& layers = loaded.layers_given;
    if (std::find(layers.begin(), layers.end(), kind) == layers.end()) plan.not_assessed.emplace_back(kind);
  }
  plan.gpx = options.gpx;
  if (!options.gpx_symbols.empty()) {
    plan.gpx.symbols = read_symbols(options.gpx_symbols);
    plan.inputs.push_back(
        {std::filesystem::path(options.gpx_symbols).filename().string(), sha256_of(options.gpx_symbols)});
  }
  for (const InputFile& input : loaded.inputs) plan.inputs.push_back({input.name, input.sha256});
  std::sort(plan.inputs.begin(), plan.inputs.end(), [](const Plan::Input& a, const Plan::Input& b) {
    return std::tie(a.name, a.sha256) < std::tie(b.name, b.sha256);
  });
  plan.options = options.result_options;
}

// A caution, and a stop that was set aside, stand on every spot and pass.
void add_advice(PhaseSpots& result, const Advisory& advisory) {
  if (advisory.level == AdvisoryLevel::none) return;
  const auto add = [&](std::vector<std::string>& cautions) {
    cautions.insert(cautions.begin(), advisory.reasons.begin(), advisory.reasons.end());
  };
  for (Spot& spot : result.spots) add(spot.cautions);
  for (Pass& pass : result.passes) add(pass.cautions);
}

// Fish over open water are looked for on the day alone: before the season the layers are those of midsummer, whatever
// the phase. At a caution they are left in peace.
std::optional<SpotOptions::OpenWater> open_water(const Plan& plan) {
  if (!plan.season.water_temp || plan.season.phases.size() != 1) return std::nullopt;
  if (plan.season.advisory.level != AdvisoryLevel::none || !plan.layers.thermocline || !plan.secchi)
    return std::nullopt;
  return SpotOptions::OpenWater{plan.layers.thermocline->low, *plan.secchi};
}

// Where the profile of the day has no oxygen there are no fish, whatever the bottom looks like.
Phase without_dead_water(const Phase& phase, const LayerAnswer& layers, const Profile& species) {
  Phase out = phase;
  const auto& own = species.least_oxygen;
  out.depth = without_depths(
      phase.depth, layers.without_oxygen,
      fmt::format("0 where oxygen is under {:g} mg/l, profile of {} (limit: {})", own ? own->value : kLeastOxygen,
                  layers.profile_date, own ? own->source.text : "design, after Inskip 1982"));
  return out;
}

// The shortest and the longest cast: as given, or as the clarity of the water asks.
std::pair<Metres, Metres> casts_for(const Plan& plan, const ScoutOptions& options) {
  const std::pair<Metres, Metres> own{options.spots.cast_from, options.spots.cast_to};
  return options.cast_given ? own : casts_in(clarity_of(plan.secchi)).value_or(own);
}

SpotOptions spot_options_for(const Plan& plan, const ScoutOptions& options, const LakeFile& file) {
  SpotOptions out = options.spots;
  out.draft = options.draft.value_or(file.boat.draft);
  out.units = options.units;
  std::tie(out.cast_from, out.cast_to) = casts_for(plan, options);
  if (plan.profile->reach) out.reach = plan.profile->reach->value;
  if (plan.weed_depth) {
    // the band is taken for 90 %; an edge that somebody saw or sounded is known to a hand's breadth or two
    const WeedDepth& edge = *plan.weed_depth;
    out.weed_error = std::max(Metres(0.2), (edge.high - edge.low) * (0.5 / 1.645));
  }
  out.motor = file.boat.type == "motor";
  out.wind = plan.wind;
  out.rough = rough_limits(file.boat.type);
  out.open_water = open_water(plan);
  if (!plan.season.no_spots) out.fetch = std::make_shared<const WindFetch>(*plan.lake);
  return out;
}

// The phase as the water of the day changes it, its spots, and what stays out of them.
PhaseSpots ranked_in(const Plan& plan, const Phase& phase, SpotOptions options) {
  const WeedStage weeds = weed_stage_in(plan, phase);
  Phase ranked = for_clarity(phase, plan.secchi);
  if (weeds == WeedStage::standing && plan.weed_depth) ranked = for_weed_edge(ranked, plan.weed_depth->expected);
  ranked = by_thermocline(ranked, plan.layers.thermocline);
  if (options.wind) ranked = for_wind(ranked);
  ranked = without_dead_water(ranked, plan.layers, *plan.profile);
  ranked = without_refuges(ranked, plan);
  ranked.fishable = phase.fishable || plan.season.advisory.overridden;
  options.keep_out = left_alone(plan, phase);
  if (weeds == WeedStage::standing) return rank_spots(*plan.lake, plan.features, ranked, options);
  return rank_spots(*plan.lake, with_weeds_of(plan.features, weeds), ranked, options);
}

void add_clarity_note(Plan& plan, const ScoutOptions& options, const SpotOptions& spots) {
  const Clarity clarity = clarity_of(plan.secchi);
  if (clarity == Clarity::usual) return;
  const std::string casts = fmt::format(", and casts are {} to {}", length_text(spots.cast_from, options.units),
                                        length_text(spots.cast_to, options.units));
  plan.notes.push_back(fmt::format(
      "{} water: the fish are looked for {}, edges, cover and the light at their depth count as such water asks{} "
      "(design choices).",
      clarity == Clarity::stained ? "Stained" : "Clear", clarity == Clarity::stained ? "shallower" : "deeper",
      options.cast_given ? "" : casts));
}

void rank_phases(Plan& plan, const ScoutOptions& options, const LakeFile& file) {
  const SpotOptions spot_options = spot_options_for(plan, options, file);
  for (const Phase* phase : plan.season.phases) {
    PhaseSpots result{phase, {}, {}};
    if (plan.season.no_spots) {
      result.why_none =
          plan.season.advisory.reasons.empty() ? phase->stop_reason : plan.season.advisory.reasons.front();
    } else {
      result = ranked_in(plan, *phase, spot_options);
      result.phase = phase;
    }
    add_depth_cautions(result.spots, *plan.profile, options.units);
    add_advice(result, plan.season.advisory);
    plan.phases.push_back(std::move(result));
  }
  number_equal_ids(plan.phases);
  add_welfare_notes(plan);
  describe_weeds(plan);
  add_clarity_note(plan, options, spot_options);
}

// All that is decided before a feature is looked for.
std::optional<WeedKnowledge> decide_day(const ScoutOptions& options, const LakeFile& file, const LoadedLake& loaded,
                                        const TimeZone& zone, Plan& plan) {
  plan.units = options.units;
  plan.date = options.date ? date_text(*options.date) : "";
  plan.season = season_for(options, file, loaded, *plan.profile, zone, plan);
  plan.cautions = standing_cautions(*plan.profile);
  if (file.water == "river") {
    plan.cautions.push_back(
        "A river: current is not modelled. Boats drift, waters rise, and lures and fish lie otherwise than in still "
        "water; look for slow, deep water yourself.");
  }
  if (plan.season.advisory.level != AdvisoryLevel::stop) {
    plan.odds = odds_of(*plan.profile);
    plan.odds_text = odds_text(*plan.profile);
    plan.odds_line = odds_line(*plan.profile);
  }
  add_age_of_rules(plan, file, options.date);
  describe_day(file, loaded, options, zone, middle_of(loaded.lake), plan);
  return weed_knowledge(file, loaded, options, plan);
}

// The other side of a comparison, up to its features; an error says whose it is.
Plan other_day(const ScoutOptions& options, const LakeFile& file, const LoadedLake& loaded, const TimeZone& zone,
               const Profile& profile) {
  Plan plan;
  plan.profile = &profile;
  try {
    // what is known of the weeds does not hang on the day: the plan's own serves both
    static_cast<void>(decide_day(options_of_other(options), file, loaded, zone, plan));
  } catch (const UsageError& error) {
    throw UsageError(fmt::format("--compare, {}: {}", options.compare->b_text, error.what()));
  }
  return plan;
}

}  // namespace

std::string lake_name_from(const std::string& path) {
  std::string name = std::filesystem::path(path).stem().string();
  std::replace_if(
      name.begin(), name.end(), [](char c) { return c == '_' || c == '-'; }, ' ');
  if (!name.empty()) name.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(name.front())));
  return name;
}

LakeFile lake_file_for(const ScoutOptions& options) {
  if (is_lake_file(options.lake)) return read_lake_file(options.lake);
  LakeFile file;
  file.name = lake_name_from(options.lake);
  file.raster.path = options.lake;
  file.raster.shown = options.lake;
  file.raster.unit = options.unit;
  file.raster.crs = options.crs;
  if (options.sense) file.raster.sense = *options.sense;
  file.raster.surface = options.surface;
  if (!options.shoreline.empty()) file.shoreline = VectorOptions{options.shoreline, "", options.crs};
  return file;
}

MadePlan make_plan(const ScoutOptions& options, const std::function<void(std::string_view)>& progress) {
  MadePlan made;
  Plan& plan = made.plan;
  const LakeFile file = lake_file_for(options);
  plan.profile = &chosen_species(options, file, made);
  const TimeZone zone = zone_of(file);
  LoadedLake loaded = lake_of(file, progress);
  const std::optional<WeedKnowledge> weeds = decide_day(options, file, loaded, zone, plan);
  std::optional<Plan> other;
  if (options.compare) other = other_day(options, file, loaded, zone, *plan.profile);
  set_for_the_day(loaded, file, options);

  progress("finding features");
  made.lake = std::make_unique<Lake>(std::move(loaded.lake));
  plan.lake = made.lake.get();
  DetectOptions detect = options.detect;
  detect.draft = options.draft.value_or(file.boat.draft);
  detect.neighbour_reach = casts_for(plan, options).second;
  Ground ground{*plan.lake, {}, {}, weeds, loaded.structure, loaded.closures, loaded.launches};
  ground.swing = level_swing(file);
  ground.reservoir = file.water == "reservoir";
  ground.wanted = other ? wanted_by_either(plan.season, other->season) : grounds_wanted(plan.season);
  plan.features = find_features(std::move(ground), detect, &plan.scales.emplace());

  progress("ranking spots");
  if (other) {
    other->lake = plan.lake;
    const ScoutOptions other_options = options_of_other(options);
    other->features = features_for(plan.features, other->season, other_options.date, detect.neighbour_reach);
    plan.features = features_for(std::move(plan.features), plan.season, options.date, detect.neighbour_reach);
    rank_phases(*other, other_options, file);
  }
  rank_phases(plan, options, file);
  describe(plan, file, loaded, options);
  // smoothing against noise changes what is found; without it there is nothing to warn of
  if (plan.scales->quiet > Metres(0)) plan.notes.push_back(in_words(*plan.scales));
  if (other) {
    plan.comparison = compared(plan, *other, options);
    for (const std::string& words : plan.comparison->words) plan.notes.push_back("Compared: " + words);
  }
  return made;
}

}  // namespace castplan
