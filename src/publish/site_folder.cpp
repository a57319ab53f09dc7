// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

#include "castplan/geo/error.hpp"
#include "castplan/io/load.hpp"
#include "castplan/publish/site.hpp"
#include "castplan/write/tree.hpp"

namespace castplan {
namespace {

constexpr std::string_view kList = "castplan-site.txt";
constexpr std::string_view kListHead = "castplan site 1: what castplan publish wrote here, by SHA-256 of its bytes\n";

std::optional<std::string> bytes_of(const std::filesystem::path& path) {
  if (!std::filesystem::is_regular_file(path)) return std::nullopt;
  std::ifstream in(path, std::ios::binary);
  if (!in) return std::nullopt;
  std::ostringstream bytes;
  bytes << in.rdbuf();
  return bytes.str();
}

constexpr std::string_view kExactLine = "EXACT PLACES";

// A list that somebody changed must not lead out of the folder.
bool stays_inside(const std::string& name) {
  const std::filesystem::path path(name);
  if (name.empty() || path.is_absolute()) return false;
  return std::none_of(path.begin(), path.end(), [](const std::filesystem::path& part) { return part == ".."; });
}

/// What an earlier site left, by the list in its folder; nothing when none of ours stands there.
struct EarlierSite {
  bool listed = false;
  bool exact = false;
  std::map<std::string, std::string> hashes;  ///< by name
};

EarlierSite earlier_in(const std::string& folder) {
  EarlierSite out;
  const std::optional<std::string> bytes = bytes_of(std::filesystem::path(folder) / kList);
  if (!bytes || !bytes->starts_with(kListHead)) return out;
  out.listed = true;
  std::istringstream lines(bytes->substr(kListHead.size()));
  for (std::string line; std::getline(lines, line);) {
    if (line == kExactLine) out.exact = true;
    if (line.size() > 66 && line[64] == ' ' && stays_inside(line.substr(66))) {
      out.hashes[line.substr(66)] = line.substr(0, 64);
    }
  }
  return out;
}

std::string list_of(const std::map<std::string, std::string>& hashes, bool exact) {
  std::string out(kListHead);
  if (exact) out += std::string(kExactLine) + "\n";
  for (const auto& [name, hash] : hashes) out += hash + "  " + name + "\n";
  return out;
}

std::string in_words_of_site(std::string text) {
  for (std::size_t at = text.find("--out"); at != std::string::npos; at = text.find("--out", at)) {
    text.replace(at, 5, "--site");
  }
  return text;
}

void refuse_stranger(const std::string& folder, const std::string& name, bool ours) {
  const std::filesystem::path path = std::filesystem::path(folder) / name;
  std::error_code none;
  if (ours || !std::filesystem::exists(std::filesystem::symlink_status(path, none))) return;
  throw OutputError(fmt::format(
      "{}: is there already and was not written by castplan publish; move it away, or choose another folder with "
      "--site",
      path.string()));
}

// A file of an exact site that we do not dare to remove would leave its places in a coarse one.
void refuse_exact_left(const std::string& folder, const EarlierSite& old, const Site& site, const SiteChange& change) {
  if (!old.exact || site.exact || change.kept.empty()) return;
  throw OutputError(fmt::format(
      "{}/{}: was left by a site with exact places and has been changed by hand since; it is not removed, and would "
      "stay in a coarse site: take it away, then publish again",
      folder, change.kept.front()));
}

}  // namespace

SiteChange write_site(const std::string& folder, const Site& site) {
  const std::filesystem::path root(folder);
  const EarlierSite old = earlier_in(folder);
  std::map<std::string, std::string> hashes;
  std::vector<OutputFile> changed;
  SiteChange out;
  for (const OutputFile& file : site.files) {
    hashes[file.name] = sha256_of_bytes(file.bytes);
    if (bytes_of(root / file.name) == file.bytes) {
      ++out.unchanged;
      continue;
    }
    refuse_stranger(folder, file.name, old.hashes.contains(file.name));
    changed.push_back(file);
    out.written.push_back(file.name);
  }
  for (const auto& [name, hash] : old.hashes) {
    if (hashes.contains(name)) continue;
    const std::optional<std::string> there = bytes_of(root / name);
    if (there) (sha256_of_bytes(*there) == hash ? out.removed : out.kept).push_back(name);
  }
  refuse_exact_left(folder, old, site, out);
  const std::string list = list_of(hashes, site.exact);
  if (bytes_of(root / kList) != list) {
    refuse_stranger(folder, std::string(kList), old.listed);
    // before the index, which is the last to change
    const bool index_last = !changed.empty() && changed.back().name == "index.html";
    changed.insert(index_last ? changed.end() - 1 : changed.end(), {std::string(kList), list});
  }
  try {
    write_tree(folder, changed, out.removed);
  } catch (const OutputError& error) {
    throw OutputError(in_words_of_site(error.what()));
  }
  return out;
}

}  // namespace castplan
