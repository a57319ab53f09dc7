// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/write/tree.hpp"

#include <fmt/format.h>

#include <filesystem>

#include "castplan/geo/error.hpp"
#include "write/file_steps.hpp"

namespace castplan {
namespace {

// One replacement of a tree under way; its steps can be taken back.
class TreeWrite {
 public:
  explicit TreeWrite(std::string folder) : folder_(std::move(folder)) {}

  void begin() {
    make(folder_);
    hidden_ = make_hidden_folder(folder_);
    for (const char* part : {"/new", "/old"}) make_folder(hidden_ + part);
  }
  // files are numbered in the hidden folder, which then needs no folders inside it
  void stage(const OutputFile& file) {
    write_bytes(fmt::format("{}/new/{}", hidden_, staged_.size()), file.bytes);
    staged_.push_back(file.name);
  }
  void place(std::size_t at) {
    const std::string& name = staged_[at];
    make(std::filesystem::path(folder_ + "/" + name).parent_path().string());
    set_aside(name);
    move_file(fmt::format("{}/new/{}", hidden_, at), folder_ + "/" + name);
    placed_.push_back(name);
  }
  void set_aside(const std::string& name) {
    const std::string path = folder_ + "/" + name;
    if (!is_there(path)) return;
    refuse_folder(path);
    move_file(path, fmt::format("{}/old/{}", hidden_, set_aside_.size()));
    set_aside_.push_back(name);
  }
  void end() { remove_tree(hidden_); }
  // Never throws: something has gone wrong already, and it does as much as it can.
  void undo() noexcept {
    for (const std::string& name : placed_) remove_file(folder_ + "/" + name);
    bool all_back = true;
    for (std::size_t at = 0; at < set_aside_.size(); ++at) {
      all_back = move_back(fmt::format("{}/old/{}", hidden_, at), folder_ + "/" + set_aside_[at]) && all_back;
    }
    if (all_back && !hidden_.empty()) remove_tree(hidden_);
    for (auto made = made_.rbegin(); made != made_.rend(); ++made) remove_empty_folder(*made);
  }

 private:
  void make(const std::string& path) {
    for (std::string& made : make_folders(path)) made_.push_back(std::move(made));
  }
  std::string folder_, hidden_;
  std::vector<std::string> made_, staged_, placed_, set_aside_;
};

void remove_empty_parents(const std::string& folder, const std::string& name) {
  for (std::filesystem::path at = std::filesystem::path(name).parent_path(); !at.empty(); at = at.parent_path()) {
    remove_empty_folder((std::filesystem::path(folder) / at).string());
  }
}

}  // namespace

void write_tree(const std::string& folder, const std::vector<OutputFile>& files,
                const std::vector<std::string>& stale) {
  if (files.empty() && stale.empty()) return;
  TreeWrite write(folder);
  try {
    write.begin();
    for (const OutputFile& file : files) write.stage(file);
    for (std::size_t at = 0; at + 1 < files.size(); ++at) write.place(at);
    for (const std::string& name : stale) write.set_aside(name);
    if (!files.empty()) write.place(files.size() - 1);
  } catch (const OutputError& error) {
    write.undo();
    throw OutputError(fmt::format("{}; {} is as it was", error.what(), folder));
  }
  write.end();
  for (const std::string& name : stale) remove_empty_parents(folder, name);
}

}  // namespace castplan
