// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

#include "castplan/features/feature.hpp"
#include "castplan/spots/spot.hpp"

namespace castplan {

/// "no fishing, 04-01 to 05-31", "no entry, all year"
std::string closure_words(const Closure& closure);

/// Where a cast goes, to follow a direction: ", toward the shallow side"; empty where it is not known.
std::string_view side_words(const Spot& spot);

}  // namespace castplan
