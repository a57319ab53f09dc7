// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/write/plan.hpp"
#include "castplan/write/text.hpp"

namespace castplan {

/// The member `compare` of the summary. Requires `comparison`.
void write_comparison(JsonText& json, const Plan& plan);

}  // namespace castplan
