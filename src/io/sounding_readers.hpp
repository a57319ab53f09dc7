// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "castplan/io/soundings.hpp"

namespace castplan {

/// Numbers that a reader gives to what it reads.
struct Numbers {
  int file;
  int first_track;
};

/// True for tables and GPX, which are read without GDAL.
bool is_read_as_text(const std::string& path);

/// The readers behind read_soundings, one for each kind of file. shown: the name for messages.
SoundingsRead read_table(const SoundingOptions& options, const Projection& target, Numbers numbers,
                         const std::string& shown);
SoundingsRead read_gpx(const SoundingOptions& options, const Projection& target, Numbers numbers,
                       const std::string& shown);
SoundingsRead read_layer(const SoundingOptions& options, const Projection& target, Numbers numbers,
                         const std::string& shown);

}  // namespace castplan
