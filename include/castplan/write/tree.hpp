// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "castplan/write/plan.hpp"

namespace castplan {

/// Replaces files in a folder and in the folders inside it, as whole as a tree can be: all are first written to a
/// hidden folder, then renamed into place in the order given, so that what links to the others comes last; before the
/// last one the stale ones go. Names may hold "/". What goes wrong undoes all of it. Folders that become empty go too.
/// Throws OutputError: what could not be written, why, and that the folder is as it was.
void write_tree(const std::string& folder, const std::vector<OutputFile>& files, const std::vector<std::string>& stale);

}  // namespace castplan
