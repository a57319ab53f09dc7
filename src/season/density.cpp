// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/density.hpp"

namespace castplan {

KilogramsPerCubicMetre water_density(Celsius temperature) {
  const double t = temperature.value();
  const double from_densest = t - 3.983035;
  return KilogramsPerCubicMetre(999.974950 *
                                (1.0 - from_densest * from_densest * (t + 301.797) / (522528.9 * (t + 69.34881))));
}

KilogramsPerCubicMetre martin_mccutcheon_density(Celsius temperature) {
  const double t = temperature.value();
  const double from_densest = t - 3.9863;
  return KilogramsPerCubicMetre(1000.0 *
                                (1.0 - (t + 288.9414) * from_densest * from_densest / (508929.2 * (t + 68.12963))));
}

KilogramsPerCubicMetre kell_density(Celsius temperature) {
  const double t = temperature.value();
  const double above =
      999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - 280.54253e-12 * t))));
  // 16.879850: a reprint with two digits swapped is about
  return KilogramsPerCubicMetre(above / (1.0 + 16.879850e-3 * t));
}

}  // namespace castplan
