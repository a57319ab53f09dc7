// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/write/text.hpp"

namespace castplan {

/// The summary object, as the whole of summary.json and as `metadata` of the GeoJSON files.
void write_summary(JsonText& json, const Plan& plan);

}  // namespace castplan
