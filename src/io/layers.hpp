// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/io/load.hpp"

namespace castplan {

/// The parts of load_lake that fill one member each. Notes go to out.notes; out.lake must be there.

void load_structure(const LakeFile& file, LoadedLake& out);
void load_launches(const LakeFile& file, LoadedLake& out);
void load_closures(const LakeFile& file, LoadedLake& out);
void load_plants(const LakeFile& file, LoadedLake& out);
void load_water_temps(const LakeFile& file, LoadedLake& out);
void load_air_temps(const LakeFile& file, LoadedLake& out);
void load_profile(const LakeFile& file, LoadedLake& out);
void load_wind(const LakeFile& file, LoadedLake& out);

}  // namespace castplan
