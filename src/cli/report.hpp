// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "castplan/write/plan.hpp"

namespace castplan {

/// What a person sees after a run: the lake's figures, the season, the features found, the best spots with their
/// reasons in words, the cautions and the paths of the files.
std::string report(const Plan& plan, const std::string& folder, const std::vector<OutputFile>& files);

}  // namespace castplan
