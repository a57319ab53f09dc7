// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "castplan/season/profile.hpp"
#include "season/profile_table.hpp"

namespace castplan {

using Sources = std::map<std::string, Source, std::less<>>;

/// The source that a table names by its key.
Source source_of(const ProfileTable& table, const Sources& sources, std::string_view key = "source");

/// One [[phase]]. `ranked_as` is left to the caller, who knows the other phases.
Phase read_phase(const ProfileTable& table, const Sources& sources);

/// Gives a phase the curves, weights and lures of another.
void rank_like(const Phase& model, Phase& phase);

/// Every source of a phase, with what it stands for: "rising from", "depth", "weight of depth", "lure jerkbait".
std::vector<std::pair<std::string, Source>> sources_in(const Phase& phase);

}  // namespace castplan
