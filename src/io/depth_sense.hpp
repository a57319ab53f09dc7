// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <string>

#include "castplan/io/soundings.hpp"

namespace castplan {

/// What tells whether values are depths, heights or elevations. Values in metres as written.
struct Signs {
  std::size_t above_zero = 0;
  std::size_t below_zero = 0;
  double lowest = 0;  ///< of those that are not 0
  double highest = 0;

  void add(double metres);
  [[nodiscard]] double negative_share() const;
};

/// depth = factor * value + shift, in metres.
struct ToDepth {
  double factor;
  double shift;
  [[nodiscard]] double operator()(double value) const { return factor * value + shift; }
};

/// The sense given, or the one that the signs show; how it is known goes to `source`. InputError where they contradict
/// each other, or where the signs are mixed and nothing is given.
ToDepth settle_sense(const Signs& found, const DepthSourceOptions& options, Metres transducer, const std::string& shown,
                     DepthSource& source);

}  // namespace castplan
