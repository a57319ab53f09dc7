// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace castplan {

/// The single steps of writing a folder. All throw OutputError with the path, the system's reason and what to do,
/// unless they are noexcept.

/// Makes a folder and its missing parents. Returns those that were made, outermost first.
std::vector<std::string> make_folders(const std::string& path);
void make_folder(const std::string& path);

/// A new folder `.castplan-<process>-<number>` inside; the number is the first that is free.
std::string make_hidden_folder(const std::string& inside);

void write_bytes(const std::string& path, std::string_view bytes);
void move_file(const std::string& from, const std::string& to);
bool is_there(const std::string& path);
/// A folder in the place of a file is not ours to move.
void refuse_folder(const std::string& path);

/// Our outputs in a folder, but for those kept: the fixed names, and waypoints-PHASE.gpx that name us as creator.
std::vector<std::string> outputs_in(const std::string& folder, const std::set<std::string>& kept);

bool move_back(const std::string& from, const std::string& to) noexcept;
void remove_file(const std::string& path) noexcept;
void remove_empty_folder(const std::string& path) noexcept;
void remove_tree(const std::string& path) noexcept;

}  // namespace castplan
