// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "castplan/season/profile.hpp"

namespace castplan {

/// Holds a profile that has been read to what read_profile promises of it as a whole: phases that cover every
/// temperature once, a stop that no fishable phase passes. Throws InputError; where names the file.
void check_profile(const Profile& profile, const std::string& where);

}  // namespace castplan
