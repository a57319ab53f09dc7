// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/spots/casting.hpp"

namespace castplan {

Seconds cast_time(Metres distance, MetresPerSecond speed, Seconds overhead) {
  return Seconds(distance.value() / speed.value()) + overhead;
}

double casts_per_hour(Seconds each) { return 3600 / each.value(); }

Metres drift_between_casts(MetresPerSecond boat, Seconds each) { return Metres(boat.value() * each.value()); }

SquareMetres fan_area(Metres inner, Metres outer, Degrees angle) {
  const double turn = angle.value() / 360;
  return SquareMetres(turn * 3.14159265358979323846 * (outer.value() * outer.value() - inner.value() * inner.value()));
}

}  // namespace castplan
