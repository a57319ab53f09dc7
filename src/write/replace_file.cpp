// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <unistd.h>

#include <filesystem>

#include "castplan/geo/error.hpp"
#include "castplan/write/folder.hpp"
#include "write/file_steps.hpp"

namespace castplan {

void replace_file(const std::string& path, std::string_view bytes) {
  const std::filesystem::path at(path);
  refuse_folder(path);
  const std::string hidden =
      (at.parent_path() / fmt::format(".castplan-{}-{}", ::getpid(), at.filename().string())).string();
  try {
    write_bytes(hidden, bytes);
    move_file(hidden, path);
  } catch (...) {
    remove_file(hidden);
    throw;
  }
}

}  // namespace castplan
