// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "castplan/write/plan.hpp"

namespace castplan {

/// Puts a plan into a folder, whole or not at all. All files are first written to a hidden folder beside their place,
/// then renamed into it, summary.json last; our older outputs that this plan does not have (another phase's waypoints,
/// an older sheet) are removed first; a log.csv that somebody has filled in is left alone, and none is written over it.
/// Ours are the fixed names of our outputs, a log.csv that is still blank, and waypoints-PHASE.gpx only with our name
/// as its creator. Other files are never touched. Throws OutputError: what could not be written, why, and which plan is
/// still there; the folder is then as it was. Creates the folder when it is missing. One write at a time.
void write_folder(const std::string& folder, const std::vector<OutputFile>& files);

/// True when the folder's log.csv is not as we wrote it: it holds a person's notes, or is no log of ours.
bool has_filled_log(const std::string& folder);

/// Writes one file, whole or not at all, where nothing stands yet. Throws OutputError, with what to do in the words
/// given, when something is there already or the file cannot be written; nothing is left behind then.
void write_new_file(const std::string& path, std::string_view bytes, std::string_view remedy);
/// The same, but a file that stood there is replaced; when it cannot be written, that one still stands.
void replace_file(const std::string& path, std::string_view bytes, std::string_view remedy);

/// "the plan of <lake>, <date or phases>" that stands in the folder, from its summary.json; empty when there is none.
std::string plan_in(const std::string& folder);

/// Undoes a write_folder that is under way in another thread: what it had replaced comes back, its hidden folder goes,
/// and that write_folder throws OutputError. Does nothing when none is under way. Call it from an ordinary thread once
/// a signal was noticed, never inside a signal handler (it takes a lock).
void abandon_write() noexcept;

}  // namespace castplan
