// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "castplan/io/lake_file.hpp"

namespace castplan {

/// Works out today's surface, the survey's, and their difference from [depth] surface and [level], and fills
/// file.raster with them. fail(key, what) is called, and must throw, where the figures contradict each other.
void settle_level(LakeFile& file, const std::function<void(std::string_view, const std::string&)>& fail);

/// What depths in outputs refer to, for people.
std::string surface_text(const LakeFile& file);

}  // namespace castplan
