// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "castplan/geo/coordinate.hpp"
#include "castplan/geo/error.hpp"
#include "castplan/terrain/fetch.hpp"

namespace castplan {
namespace {

double cosine(std::size_t radial) {
  const double off = (static_cast<double>(radial) - kFetchRadials / 2) * kFetchSpacing.value();
  return std::cos(off * std::numbers::pi / 180.0);
}

void check(std::span<const Metres> radials) {
  if (radials.size() != kFetchRadials) {
    throw InputError(fmt::format("effective fetch: {} lengths, expected {}", radials.size(), kFetchRadials));
  }
  for (const Metres length : radials) {
    if (!(length.value() >= 0) || !std::isfinite(length.value())) {
      throw InputError(fmt::format("effective fetch: a length of {:g} m, expected 0 or more", length.value()));
    }
  }
}

// sum(F cos^power a) / sum(cos a)
Metres weighted(std::span<const Metres> radials, int power) {
  check(radials);
  double sum = 0, weights = 0;
  for (std::size_t i = 0; i < radials.size(); ++i) {
    sum += radials[i].value() * std::pow(cosine(i), power);
    weights += cosine(i);
  }
  return Metres(sum / weights);
}

}  // namespace

std::array<Degrees, kFetchRadials> fetch_bearings(Degrees wind_from) {
  std::array<Degrees, kFetchRadials> out;
  for (int i = 0; i < kFetchRadials; ++i) {
    out[static_cast<std::size_t>(i)] = wrap_bearing(wind_from + kFetchSpacing * (i - kFetchRadials / 2));
  }
  return out;
}

Metres effective_fetch(std::span<const Metres> radials) { return weighted(radials, 1); }

Metres projected_fetch(std::span<const Metres> radials) { return weighted(radials, 2); }

Metres mean_fetch(std::span<const Metres> radials) {
  Metres sum(0);
  for (const Metres length : radials) sum += length;
  return sum / static_cast<double>(radials.size());
}

}  // namespace castplan
