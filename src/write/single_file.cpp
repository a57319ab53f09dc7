// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

#include "castplan/geo/error.hpp"
#include "castplan/write/folder.hpp"
#include "write/file_steps.hpp"

namespace castplan {
namespace {

// A file under a passing name, gone on every way out.
class Passing {
 public:
  explicit Passing(std::string path)
      : path_(std::move(path)), number_(::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666)) {}
  ~Passing() {
    if (number_ >= 0) ::close(number_);
    if (number_ >= 0 || written_) remove_file(path_);
  }
  Passing(const Passing&) = delete;
  Passing& operator=(const Passing&) = delete;

  /// False, with errno, when it cannot be made, filled or closed.
  bool fill(std::string_view bytes) {
    if (number_ < 0) return false;
    written_ = true;
    while (!bytes.empty()) {
      const ssize_t done = ::write(number_, bytes.data(), bytes.size());
      if (done < 0 && errno != EINTR) return false;
      if (done > 0) bytes.remove_prefix(static_cast<std::size_t>(done));
    }
    const int number = number_;
    number_ = -1;
    return ::close(number) == 0;
  }

 private:
  std::string path_;
  int number_;
  bool written_ = false;
};

// A link never replaces; where the file system has none, a look before the move must do.
bool put_in_place(const std::string& from, const std::string& to) {
  if (::link(from.c_str(), to.c_str()) == 0) return true;
  if (errno == EEXIST || is_there(to)) {
    errno = EEXIST;
    return false;
  }
  return std::rename(from.c_str(), to.c_str()) == 0;
}

bool replace(const std::string& from, const std::string& to) { return std::rename(from.c_str(), to.c_str()) == 0; }

// Under a hidden name beside its place first, so that the file is there whole or not at all.
void write_single(const std::string& path, std::string_view bytes, std::string_view remedy,
                  bool (*put)(const std::string& from, const std::string& to)) {
  const std::filesystem::path at(path);
  const std::string hidden =
      (at.parent_path() / fmt::format(".castplan-{}-{}", ::getpid(), at.filename().string())).string();
  Passing file(hidden);
  if (!file.fill(bytes) || !put(hidden, path)) {
    const int error = errno;
    throw OutputError(fmt::format("{}: cannot be written: {}; {}", path, std::strerror(error), remedy));
  }
}

}  // namespace

void write_new_file(const std::string& path, std::string_view bytes, std::string_view remedy) {
  if (is_there(path)) throw OutputError(fmt::format("{}: is there already and is not overwritten; {}", path, remedy));
  write_single(path, bytes, remedy, put_in_place);
}

void replace_file(const std::string& path, std::string_view bytes, std::string_view remedy) {
  refuse_folder(path);
  write_single(path, bytes, remedy, replace);
}

}  // namespace castplan
