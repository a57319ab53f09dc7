// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "castplan/features/feature.hpp"

namespace castplan {

/// "no fishing, 04-01 to 05-31", "no entry, all year"
std::string closure_words(const Closure& closure);

}  // namespace castplan
