// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/write/folder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <mutex>
#include <set>

#include "castplan/geo/error.hpp"
#include "write/file_steps.hpp"

namespace castplan {
namespace {

constexpr std::string_view kSummary = "summary.json";

/// One write under way. Whoever holds the lock may go a step forward, or undo all of them.
class Write {
 public:
  explicit Write(std::string folder) : folder_(std::move(folder)), standing_(plan_in(folder_)) {}

  void begin() {
    made_ = make_folders(folder_);
    hidden_ = make_hidden_folder(folder_);
    for (const char* part : {"new", "old"}) make_folder(hidden_ + "/" + part);
  }
  void stage(const OutputFile& file) { write_bytes(staged(file.name), file.bytes); }
  void place(const std::string& name) {
    set_aside(name);
    move_file(staged(name), placed(name));
    placed_.push_back(name);
  }
  void set_aside(const std::string& name) {
    if (!is_there(placed(name))) return;
    refuse_folder(placed(name));
    move_file(placed(name), hidden_ + "/old/" + name);
    set_aside_.push_back(name);
  }
  [[nodiscard]] std::vector<std::string> stale(const std::set<std::string>& kept) const {
    return outputs_in(folder_, kept);
  }
  void end() { remove_tree(hidden_); }

  // Never throws: it runs when something has gone wrong already, and does as much as it can.
  void undo() noexcept {
    for (const std::string& name : placed_) remove_file(placed(name));
    bool all_back = true;
    for (const std::string& name : set_aside_) {
      all_back = move_back(hidden_ + "/old/" + name, placed(name)) && all_back;
    }
    if (all_back && !hidden_.empty()) remove_tree(hidden_);
    for (auto folder = made_.rbegin(); folder != made_.rend(); ++folder) remove_empty_folder(*folder);
  }
  [[nodiscard]] std::string what_stands() const {
    if (!standing_.empty()) return fmt::format("{} is still in {}", standing_, folder_);
    return made_.empty() ? fmt::format("{} is as it was", folder_) : fmt::format("{} was not made", folder_);
  }

 private:
  [[nodiscard]] std::string staged(const std::string& name) const { return hidden_ + "/new/" + name; }
  [[nodiscard]] std::string placed(const std::string& name) const { return folder_ + "/" + name; }

  std::string folder_;
  std::string standing_;                ///< the plan that was there
  std::string hidden_;                  ///< empty until it is made
  std::vector<std::string> made_;       ///< folders that were missing, outermost first
  std::vector<std::string> placed_;     ///< new files in their place
  std::vector<std::string> set_aside_;  ///< old files in hidden/old
};

std::mutex lock;
Write* under_way = nullptr;  // guarded by lock

// One step, unless the write was abandoned since the last one.
template <class Step>
void step(const Write& write, Step action) {
  const std::lock_guard hold(lock);
  if (under_way != &write) throw OutputError("interrupted");
  action();
}

void run(Write& write, const std::vector<OutputFile>& files) {
  step(write, [&] { write.begin(); });
  std::set<std::string> names;
  for (const OutputFile& file : files) {
    step(write, [&] { write.stage(file); });
    names.insert(file.name);
  }
  for (const OutputFile& file : files) {
    if (file.name != kSummary) step(write, [&] { write.place(file.name); });
  }
  // what an older plan left goes before the summary says that this plan is whole
  std::vector<std::string> stale;
  step(write, [&] { stale = write.stale(names); });
  for (const std::string& name : stale) step(write, [&] { write.set_aside(name); });
  step(write, [&] {
    if (names.contains(std::string(kSummary))) write.place(std::string(kSummary));
    write.end();
    under_way = nullptr;
  });
}

void write_all(const std::string& folder, const std::vector<OutputFile>& files) {
  Write write(folder.empty() ? "." : folder);
  {
    const std::lock_guard hold(lock);
    if (under_way) throw OutputError(fmt::format("{}: another plan is being written by this program", folder));
    under_way = &write;
  }
  try {
    run(write, files);
  } catch (const std::exception& error) {
    const std::lock_guard hold(lock);
    if (under_way == &write) {
      write.undo();
      under_way = nullptr;
    }
    throw OutputError(fmt::format("{}; {}", error.what(), write.what_stands()));
  }
}

}  // namespace

void write_folder(const std::string& folder, const std::vector<OutputFile>& files) {
  if (!has_filled_log(folder)) return write_all(folder, files);
  std::vector<OutputFile> rest;
  std::copy_if(files.begin(), files.end(), std::back_inserter(rest),
               [](const OutputFile& file) { return file.name != "log.csv"; });
  write_all(folder, rest);
}

void abandon_write() noexcept {
  const std::lock_guard hold(lock);
  if (!under_way) return;
  under_way->undo();
  under_way = nullptr;
}

}  // namespace castplan
