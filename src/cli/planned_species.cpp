// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/planned_species.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "castplan/geo/error.hpp"
#include "cli/text_of.hpp"

namespace castplan {

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

}  // namespace castplan
