// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <map>

#include "spots/target.hpp"

namespace castplan {

/// The first so many spots are spread, however many are asked for: fewer are then the first of these.
inline constexpr int kSpread = 10;

/// Keeps the first spots from lying in one corner of the lake and on one kind of edge: at most four in one ninth of the
/// water's extent, in waters of 40 ha and more, and at most five on one kind. Design choice: one guess may be wrong.
class Spread {
 public:
  explicit Spread(const Lake& lake);
  [[nodiscard]] bool has_enough_like(const Target& target) const;
  void add(const Target& target);

 private:
  [[nodiscard]] std::size_t part_of(XY at) const;
  Box water_;
  bool parts_;
  std::array<int, 9> in_part_{};
  std::map<Kind, int> of_kind_;
};

}  // namespace castplan
