// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "cli/make_plan.hpp"

namespace castplan {

/// The species of the options, else muskellunge, else the first that the lake holds. A profile of the user's own is
/// kept in the plan and counts among its inputs. Throws UsageError, InputError.
const Profile& chosen_species(const ScoutOptions& options, const LakeFile& file, MadePlan& made);

/// The other species of the lake whose stops count too; a note for each without a profile.
std::vector<const Profile*> held_species(const LakeFile& file, const Profile& planned, Plan& plan);

}  // namespace castplan
