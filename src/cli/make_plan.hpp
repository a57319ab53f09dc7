// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <memory>
#include <string_view>

#include "castplan/io/load.hpp"
#include "castplan/io/time_zone.hpp"
#include "castplan/season/weed_calendar.hpp"
#include "castplan/write/plan.hpp"
#include "cli/options.hpp"

namespace castplan {

/// A plan and what it points to.
struct MadePlan {
  std::unique_ptr<Lake> lake;
  std::unique_ptr<Profile> own_profile;  ///< from --species-file
  Plan plan;
};

/// "big_round-lake.tif" becomes "Big round lake".
std::string lake_name_from(const std::string& path);

/// The lake file that the options stand for: the one named, or a bare raster with its options.
LakeFile lake_file_for(const ScoutOptions& options);

/// Runs the whole chain: read, decide the season, find features, rank spots. progress: called before each stage with
/// a few words for people.
MadePlan make_plan(const ScoutOptions& options, const std::function<void(std::string_view)>& progress);

/// The water temperature where none was measured at the surface: the top of a fresh profile, else smoothed air
/// temperatures.
std::optional<SeasonQuestion::Estimate> estimated_water(const ScoutOptions& options, const LoadedLake& loaded);

/// Fills what the day brings, after the season is decided: the lake's layers, sun and moon by the zone's clock, the
/// wind, with notes and a caution where it is too rough. at: a place on the lake.
void describe_day(const LakeFile& file, const LoadedLake& loaded, const ScoutOptions& options, const TimeZone& zone,
                  LonLat at, Plan& plan);

/// What documents carry as their date: SOURCE_DATE_EPOCH (seconds since 1970) where the environment has it, else the
/// start of the planned day, else a fixed one; ISO 8601, UTC. Throws UsageError for a value that is no such number.
/// Source: the specification of SOURCE_DATE_EPOCH, reproducible-builds.org.
std::string document_date(const std::optional<Date>& date);

/// The lake's time zone; UTC where the lake file names none. Throws InputError that names the file.
TimeZone zone_of(const LakeFile& file);

/// The weed edge: seen or sounded, else fitted to samples, else predicted from Secchi, else nothing. Fills the plan's
/// weed_depth and weed_source; adds a note when samples cannot tell.
std::optional<WeedKnowledge> weed_knowledge(const LakeFile& file, const LoadedLake& loaded, const ScoutOptions& options,
                                            Plan& plan);

/// What stands of the weeds in a phase: by the water's temperature where it is known, else by the phase's own.
WeedStage weed_stage_in(const Plan& plan, const Phase& phase);

/// The features as the calendar of the weeds leaves them: predicted outside edges only once they have grown, and
/// thinner when they die; without any growth no predicted edge at all. Mapped, seen and fitted edges stay.
std::vector<Feature> with_weeds_of(const std::vector<Feature>& features, WeedStage stage);

/// Fills the plan's weed_stage and says for which phases no edge has grown. Needs the features.
void describe_weeds(Plan& plan);

/// How the surface moves in a year, where the lake file says; the survey's surface is taken for the highest.
std::optional<LevelSwing> level_swing(const LakeFile& file);

}  // namespace castplan
