// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "castplan/io/lake_file.hpp"
#include "io/toml_table.hpp"

namespace castplan {

/// Paths in a lake file are relative to it.
class Folder {
 public:
  explicit Folder(const std::string& lake_file) : folder_(std::filesystem::path(lake_file).parent_path()) {}

  [[nodiscard]] std::string at(const std::string& written) const;

 private:
  std::filesystem::path folder_;
};

/// unit and sense of a table; nullopt where the key is absent.
std::optional<DepthUnit> read_unit(TomlTable& table);
std::optional<Sense> read_sense(TomlTable& table);

/// [[depth.soundings]], [[depth.contours]] and cell. What an entry leaves open it has from [depth]: unit, sense (where
/// [depth] states one), crs.
void read_depth_sources(TomlTable& depth, const Folder& folder, std::optional<Sense> sense, LakeFile& out);

/// The level of all sources that state one; nullopt when none does, or they differ.
std::optional<Metres> common_source_level(const LakeFile& file);

/// Gives each source the surface that all are reduced to, and its own distance from it. Until then `surface` of an
/// entry is its own level, where it has one. To be called once [level] is settled. fail(key, what) must throw.
void settle_source_levels(LakeFile& file, const std::function<void(std::string_view, const std::string&)>& fail);

}  // namespace castplan
