// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/file_steps.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "castplan/geo/error.hpp"
#include "castplan/write/folder.hpp"
#include "write/log.hpp"

namespace castplan {
namespace {

// log.csv is no row: a person may have filled it in, and only a blank one is ours
constexpr std::string_view kOutputs[] = {"features.geojson", "spots.geojson",    "passes.geojson",  "waypoints.gpx",
                                         "spots.csv",        "map.html",         "sheet.pdf",       "summary.json",
                                         "contours.pdf",     "contours-key.pdf", "glossary.pdf",    "to-check.pdf",
                                         "to-check.csv",     "places.kml",       "castplan.gpkg",   "map.png",
                                         "map.svg",          "fragment.html",    "contours.geojson"};

constexpr std::string_view kLogName = "log.csv";

std::string remedy(int error) {
  switch (error) {
    case ENOSPC:
    case EDQUOT:
    case EFBIG:
      return "free some space, or choose another folder with --out";
    case EACCES:
    case EPERM:
    case EROFS:
      return "change its permissions, or choose another folder with --out";
    case EISDIR:
      return "move or rename that folder, or choose another with --out";
    case ENOTDIR:
    case EEXIST:
      return "a file stands where a folder is needed: move it, or choose another folder with --out";
    default:
      return "choose another folder with --out";
  }
}

[[noreturn]] void fail(const std::string& path, std::string_view what, int error) {
  throw OutputError(fmt::format("{}: {}: {}; {}", path, what, std::strerror(error), remedy(error)));
}

// A file that is closed on every way out.
class File {
 public:
  explicit File(const std::string& path)
      : path_(path), number_(::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666)) {
    if (number_ < 0) fail(path_, "cannot be opened for writing", errno);
  }
  ~File() {
    if (number_ >= 0) ::close(number_);
  }
  File(const File&) = delete;
  File& operator=(const File&) = delete;
  void write(std::string_view bytes) {
    while (!bytes.empty()) {
      const ssize_t done = ::write(number_, bytes.data(), bytes.size());
      if (done < 0 && errno == EINTR) continue;
      if (done < 0) fail(path_, "cannot be written", errno);
      bytes.remove_prefix(static_cast<std::size_t>(done));
    }
  }
  // some systems report a full disk only here
  void close() {
    const int closed = ::close(number_);
    number_ = -1;
    if (closed != 0 && errno != EINTR) fail(path_, "cannot be written", errno);
  }

 private:
  const std::string& path_;
  int number_;
};

bool is_waypoint_name(const std::string& name) { return name.starts_with("waypoints-") && name.ends_with(".gpx"); }

bool is_blank_log_at(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return is_blank_log(std::string(std::istreambuf_iterator<char>(in), {}));
}

// Someone may keep waypoints of their own under such a name.
bool names_us_as_creator(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::array<char, 512> front{};
  in.read(front.data(), front.size());
  const std::string_view text(front.data(), static_cast<std::size_t>(in.gcount()));
  return text.find("creator=\"castplan ") != std::string_view::npos;
}

}  // namespace

std::vector<std::string> make_folders(const std::string& path) {
  std::vector<std::string> missing;
  for (std::filesystem::path at = path; !at.empty(); at = at.parent_path()) {
    struct stat found {};
    if (::stat(at.c_str(), &found) == 0) {
      if (!S_ISDIR(found.st_mode)) fail(at.string(), "is not a folder", ENOTDIR);
      break;
    }
    if (errno != ENOENT) fail(at.string(), "cannot be looked at", errno);
    // "a/b/" has an empty last part, which is the same folder
    if (at.has_filename()) missing.push_back(at.string());
    if (at == at.parent_path()) break;
  }
  std::vector<std::string> made;
  try {
    for (auto folder = missing.rbegin(); folder != missing.rend(); ++folder) {
      make_folder(*folder);
      made.push_back(*folder);
    }
  } catch (const OutputError&) {
    for (auto folder = made.rbegin(); folder != made.rend(); ++folder) remove_empty_folder(*folder);
    throw;
  }
  return made;
}

void make_folder(const std::string& path) {
  if (::mkdir(path.c_str(), 0777) != 0) fail(path, "the folder cannot be made", errno);
}

std::string make_hidden_folder(const std::string& inside) {
  for (int number = 1;; ++number) {
    const std::string path = fmt::format("{}/.castplan-{}-{}", inside, ::getpid(), number);
    if (::mkdir(path.c_str(), 0777) == 0) return path;
    if (errno != EEXIST) fail(inside, "nothing can be written into this folder", errno);
  }
}

void write_bytes(const std::string& path, std::string_view bytes) {
  File file(path);
  file.write(bytes);
  file.close();
}

void move_file(const std::string& from, const std::string& to) {
  if (std::rename(from.c_str(), to.c_str()) != 0) fail(to, "cannot be put in place", errno);
}

bool has_filled_log(const std::string& folder) {
  const std::string path = (std::filesystem::path(folder.empty() ? "." : folder) / kLogName).string();
  return is_there(path) && !is_blank_log_at(path);
}

bool is_there(const std::string& path) {
  struct stat found {};
  return ::lstat(path.c_str(), &found) == 0;
}

void refuse_folder(const std::string& path) {
  struct stat found {};
  if (::lstat(path.c_str(), &found) == 0 && S_ISDIR(found.st_mode)) fail(path, "cannot be replaced", EISDIR);
}

std::vector<std::string> outputs_in(const std::string& folder, const std::set<std::string>& kept) {
  std::vector<std::string> out;
  std::error_code error;
  for (const auto& entry : std::filesystem::directory_iterator(folder, error)) {
    const std::string name = entry.path().filename().string();
    std::error_code unknown;
    if (kept.contains(name) || !std::filesystem::is_regular_file(entry.symlink_status(unknown))) continue;
    const bool fixed_name = std::find(std::begin(kOutputs), std::end(kOutputs), name) != std::end(kOutputs);
    const bool ours = fixed_name || (is_waypoint_name(name) && names_us_as_creator(entry.path().string())) ||
                      (name == kLogName && is_blank_log_at(entry.path().string()));
    if (ours) out.push_back(name);
  }
  if (error) fail(folder, "cannot be listed", error.value());
  std::sort(out.begin(), out.end());
  return out;
}

bool move_back(const std::string& from, const std::string& to) noexcept {
  return std::rename(from.c_str(), to.c_str()) == 0;
}

void remove_file(const std::string& path) noexcept { ::unlink(path.c_str()); }

void remove_empty_folder(const std::string& path) noexcept { ::rmdir(path.c_str()); }

void remove_tree(const std::string& path) noexcept {
  std::error_code ignored;
  std::filesystem::remove_all(path, ignored);
}

}  // namespace castplan
