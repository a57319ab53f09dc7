// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <vector>

#include "castplan/survey/clean.hpp"

namespace castplan::survey {

/// Numbers of the spikes along tracks. order: numbers of the soundings still in question, as sailed.
std::vector<std::size_t> spikes(const std::vector<Sounding>& soundings, const std::vector<std::size_t>& order,
                                const CleanOptions& options);

/// Numbers of the soundings that their neighbours on all sides contradict.
std::vector<std::size_t> outliers(const std::vector<Sounding>& soundings, const std::vector<std::size_t>& order,
                                  const CleanOptions& options);

}  // namespace castplan::survey
