// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "castplan/io/inspect.hpp"

namespace castplan {

/// For people: what each file is, then the findings with their mends.
std::string inspect_report(const Inspection& found);

/// {"files": [...], "findings": [{"severity", "code", "text", "mend"}]}; what is not known is null.
std::string inspect_json(const Inspection& found);

/// A lake file (TOML) with what could be established, and comments for what could not. folder: where it will stand;
/// the paths in it are relative to that.
std::string drafted_lake_file(const Inspection& found, const InspectOptions& options, const std::string& folder);

}  // namespace castplan
