// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/make_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <tuple>

#include "castplan/geo/error.hpp"
#include "cli/survey_lake.hpp"

namespace castplan {

namespace {

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file || std::filesystem::is_directory(path))
    throw InputError(fmt::format("{}: cannot be read; is the path right?", path));
  return {std::istreambuf_iterator<char>(file), {}};
}

const Profile& chosen_species(const ScoutOptions& options, const LakeFile& file, MadePlan& made) {
  if (!options.species_file.empty()) {
    made.own_profile = std::make_unique<Profile>(read_profile(text_of(options.species_file), options.species_file));
    made.plan.inputs.push_back(
        {std::filesystem::path(options.species_file).filename().string(), sha256_of(options.species_file)});
    if (!options.species.empty() && options.species != made.own_profile->name) {
      throw UsageError(fmt::format("--species {} and --species-file {}, which is the profile of {}: give one of them",
                                   options.species, options.species_file, made.own_profile->name));
    }
    return *made.own_profile;
  }
  if (!options.species.empty()) return species(options.species);
  const auto& holds = file.holds;
  if (holds.empty() || std::find(holds.begin(), holds.end(), "muskellunge") != holds.end())
    return species("muskellunge");
  return species(holds.front());
}

std::vector<const Profile*> held_species(const LakeFile& file, const Profile& planned, Plan& plan) {
  std::vector<const Profile*> held;
  const auto known = species_names();
  for (const std::string& name : file.holds) {
    if (std::find(known.begin(), known.end(), name) == known.end()) {
      if (name == planned.name) continue;  // the user's own profile, whose stops are checked
      plan.notes.push_back(fmt::format("There is no profile for {} yet: its own stops are not checked.", name));
      continue;
    }
    // a profile of the user's own with the same name does not take the place of the built-in one
    if (&species(name) != &planned) held.push_back(&species(name));
  }
  return held;
}

LonLat middle_of(const Lake& lake) {
  const Frame& frame = lake.depth.frame();
  return lake.projection.to_lonlat(frame.centre({frame.rows / 2, frame.cols / 2}));
}

SeasonAnswer season_for(const ScoutOptions& options, const LakeFile& file, const LoadedLake& loaded,
                        const Profile& profile, Plan& plan) {
  SeasonQuestion question;
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
    closure.active = !options.date || closure.from.empty() || in_season(*options.date, closure.from, closure.to);
  }
  for (MappedLaunch& launch : loaded.launches) {
    launch.dry = launch.usable_above && file.level.today && *file.level.today < *launch.usable_above;
  }
}

void describe(Plan& plan, const LakeFile& file, const LoadedLake& loaded, const ScoutOptions& options) {
  plan.lake_name = file.name;
  plan.date = options.date ? date_text(*options.date) : "";
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
  for (const InputFile& input : loaded.inputs) plan.inputs.push_back({input.name, input.sha256});
  std::sort(plan.inputs.begin(), plan.inputs.end(), [](const Plan::Input& a, const Plan::Input& b) {
    return std::tie(a.name, a.sha256) < std::tie(b.name, b.sha256);
  });
  plan.options = options.result_options;
  plan.units = options.units;
  plan.gpx_line = options.gpx_line;
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
Phase without_dead_water(const Phase& phase, const LayerAnswer& layers) {
  Phase out = phase;
  out.depth =
      without_depths(phase.depth, layers.without_oxygen,
                     fmt::format("0 where oxygen is under {:g} mg/l, profile of {} (limit: design, after Inskip 1982)",
                                 kLeastOxygen, layers.profile_date));
  return out;
}

void rank_phases(Plan& plan, const ScoutOptions& options, const LakeFile& file) {
  SpotOptions spot_options = options.spots;
  spot_options.draft = options.draft.value_or(file.boat.draft);
  spot_options.units = options.units;
  if (plan.weed_depth) {
    // the band is taken for 90 %; an edge that somebody saw or sounded is known to a hand's breadth or two
    const WeedDepth& edge = *plan.weed_depth;
    spot_options.weed_error = std::max(Metres(0.2), (edge.high - edge.low) * (0.5 / 1.645));
  }
  spot_options.motor = file.boat.type == "motor";
  spot_options.wind = plan.wind;
  spot_options.open_water = open_water(plan);
  for (const Phase* phase : plan.season.phases) {
    PhaseSpots result{phase, {}, {}};
    if (plan.season.no_spots) {
      result.why_none =
          plan.season.advisory.reasons.empty() ? phase->stop_reason : plan.season.advisory.reasons.front();
    } else {
      Phase ranked = without_dead_water(*phase, plan.layers);
      ranked.fishable = phase->fishable || plan.season.advisory.overridden;
      result = rank_spots(*plan.lake, plan.features, ranked, spot_options);
      result.phase = phase;
    }
    add_advice(result, plan.season.advisory);
    plan.phases.push_back(std::move(result));
  }
  number_equal_ids(plan.phases);
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
  plan.season = season_for(options, file, loaded, *plan.profile, plan);
  plan.cautions = standing_cautions(*plan.profile);
  describe_day(file, loaded, options, zone, middle_of(loaded.lake), plan);
  const std::optional<WeedKnowledge> weeds = weed_knowledge(file, loaded, options, plan);
  set_for_the_day(loaded, file, options);

  progress("finding features");
  made.lake = std::make_unique<Lake>(std::move(loaded.lake));
  plan.lake = made.lake.get();
  DetectOptions detect = options.detect;
  detect.draft = options.draft.value_or(file.boat.draft);
  Ground ground{*plan.lake, {}, {}, weeds, loaded.structure, loaded.closures, loaded.launches};
  ground.swing = level_swing(file);
  Scales scales;
  plan.features = find_features(std::move(ground), detect, &scales);

  progress("ranking spots");
  rank_phases(plan, options, file);
  describe(plan, file, loaded, options);
  // smoothing against noise changes what is found; without it there is nothing to warn of
  if (scales.quiet > Metres(0)) plan.notes.push_back(in_words(scales));
  return made;
}

}  // namespace castplan
