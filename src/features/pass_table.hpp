// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <vector>

#include "features/slopes.hpp"

namespace castplan {

/// Keeps of each two summits the pass that joins them first.
class PassTable {
 public:
  void take(const SummitPass& pass) {
    // neighbouring cells mostly part the same two slopes
    if (last_ < passes_.size() && same(passes_[last_], pass)) {
      keep(pass);
      return;
    }
    if (passes_.size() * 2 >= slots_.size()) grow();
    std::size_t slot = slot_of(pass);
    while (slots_[slot] != kFree && !same(passes_[slots_[slot]], pass)) slot = (slot + 1) & (slots_.size() - 1);
    if (slots_[slot] == kFree) {
      slots_[slot] = static_cast<Index>(passes_.size());
      passes_.push_back(pass);
    }
    last_ = slots_[slot];
    keep(pass);
  }
  [[nodiscard]] std::vector<SummitPass> passes() { return std::move(passes_); }

 private:
  static constexpr Index kFree = 0xFFFFFFFF;

  static bool same(const SummitPass& p, const SummitPass& q) { return p.a == q.a && p.b == q.b; }
  void keep(const SummitPass& pass) {
    if (joins_before(pass, passes_[last_])) passes_[last_] = pass;
  }
  [[nodiscard]] std::size_t slot_of(const SummitPass& pass) const {
    const std::uint64_t key = (std::uint64_t{pass.a} << 32 | pass.b) * 0x9E3779B97F4A7C15ULL;
    return static_cast<std::size_t>(key >> 32) & (slots_.size() - 1);
  }
  void grow() {
    slots_.assign(slots_.empty() ? 1024 : slots_.size() * 2, kFree);
    for (std::size_t i = 0; i < passes_.size(); ++i) {
      std::size_t slot = slot_of(passes_[i]);
      while (slots_[slot] != kFree) slot = (slot + 1) & (slots_.size() - 1);
      slots_[slot] = static_cast<Index>(i);
    }
  }

  std::vector<SummitPass> passes_;
  std::vector<Index> slots_;  ///< numbers of passes; a power of two
  std::size_t last_ = 0;
};

}  // namespace castplan
