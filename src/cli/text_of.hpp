// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

namespace castplan {

/// The bytes of a file. Throws InputError where it cannot be read.
std::string text_of(const std::string& path);

}  // namespace castplan
