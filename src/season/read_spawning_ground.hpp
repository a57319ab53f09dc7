// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "season/read_phase.hpp"

namespace castplan {

/// The table [spawning_ground] of a profile. Throws InputError.
SpawningGround read_spawning_ground(const ProfileTable& table, const Sources& sources);

}  // namespace castplan
