// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/weeds.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

// log10 z = slope log10 SD + intercept
Metres log_line(Metres secchi, double slope, double intercept) {
  return Metres(std::pow(10.0, slope * std::log10(secchi.value()) + intercept));
}

// sqrt z = slope log10 SD + intercept
Metres root_line(Metres secchi, double slope, double intercept) {
  const double root = std::max(0.0, slope * std::log10(secchi.value()) + intercept);
  return Metres(root * root);
}

}  // namespace

Metres caffrey_mean(Metres secchi) { return log_line(secchi, 0.66, 0.31); }
Metres caffrey_envelope(Metres secchi) { return log_line(secchi, 0.53, 0.59); }
Metres chambers_kalff_a(Metres secchi) { return root_line(secchi, 1.33, 1.40); }
Metres chambers_kalff_b(Metres secchi) { return root_line(secchi, 1.14, 1.32); }

WeedDepth weed_depth_from_secchi(Metres secchi) {
  if (!(secchi.value() > 0.0) || !std::isfinite(secchi.value())) {
    throw InputError(
        fmt::format("a Secchi depth of {} m tells nothing of weeds; it must be more than 0 m", secchi.value()));
  }
  const Metres expected = caffrey_mean(secchi);
  return {expected, std::min(expected, chambers_kalff_b(secchi)), std::max(expected, caffrey_envelope(secchi)),
          std::max(expected, caffrey_envelope(secchi))};
}

}  // namespace castplan
