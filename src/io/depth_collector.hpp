// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "castplan/io/soundings.hpp"
#include "io/depth_sense.hpp"
#include "io/mover.hpp"

namespace castplan {

/// Keeps the account of one file while it is read: units, and what could not be used and why.
class DepthAccount {
 public:
  DepthAccount(const DepthSourceOptions& options, std::string shown, DepthSource& source);

  /// What is known of the unit before the first value: the one given, else the one that `by` states.
  void settle_unit(std::optional<DepthUnit> stated, const std::string& by);
  /// A cell's depth in metres, as written; nullopt when it holds none, and then the row is counted. InputError for a
  /// bare number when no unit is known.
  std::optional<double> metres(std::string_view cell, char decimal, std::size_t line);
  /// The same for a number (from a numeric attribute or Z).
  std::optional<double> metres(double value, std::size_t line);
  /// Counts a row that is not used, by reason; value: what it held, for the first few.
  void unread(std::size_t line, const std::string& reason, std::string_view value = {});

  [[nodiscard]] const std::string& shown() const { return shown_; }
  [[nodiscard]] DepthSource& source() { return source_; }

 private:
  std::string shown_;
  DepthSource& source_;
  std::optional<DepthUnit> given_;
  std::optional<double> metres_per_;
};

/// Collects soundings in the file's own coordinates, checks where they lie, and brings them to the plane.
class SoundingCollector {
 public:
  SoundingCollector(DepthAccount& account, Mover mover, int file, std::string swapped_mend, std::vector<Sounding>& out);
  void add(XY own, double metres, int track, std::size_t line);
  /// To be called once, after the last: turns values into depths and closes the account.
  void finish(const SoundingOptions& options);

 private:
  void flush();

  struct Raw {
    XY own;
    float metres;
    int track;
    std::size_t line;
  };
  DepthAccount& account_;
  Mover mover_;
  int file_;
  std::string swapped_mend_;
  std::vector<Sounding>& out_;
  std::vector<Raw> waiting_;
  Signs signs_;
  bool place_checked_ = false;
};

/// Fills shallowest, deepest and centre from what was read.
void describe(const std::vector<Sounding>& soundings, const Projection& target, DepthSource& source);

}  // namespace castplan
