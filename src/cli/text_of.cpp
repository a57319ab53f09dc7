// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/text_of.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "castplan/geo/error.hpp"

namespace castplan {

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file || std::filesystem::is_directory(path))
    throw InputError(fmt::format("{}: cannot be read; is the path right?", path));
  return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace castplan
