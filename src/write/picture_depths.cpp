// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/isoline.hpp"
#include "write/depth_picture.hpp"
#include "write/picture.hpp"

namespace castplan::sheet {

Shade depth_shade(double depth_m, double deepest_m) {
  const Colour colour = ramp_colour(ramp_share(depth_m, deepest_m));
  return {colour[0] / 255.0, colour[1] / 255.0, colour[2] / 255.0};
}

void draw_depth_bands(const Map& map) {
  const Lake& lake = *map.plan.lake;
  const double deepest = lake.max_depth.value();
  const Grid<Metres32> field = contour_field(lake, map.view);
  const ContourStep step = contour_step(lake.max_depth, map.plan.units);
  map.canvas.fill(map.outlines(lake.outline), depth_shade(0.5 * step.metres, deepest));
  for (int i = 1; i * step.metres < deepest; ++i) {
    map.canvas.fill(map.outlines(area_above(field, static_cast<float>(i * step.metres))),
                    depth_shade((i + 0.5) * step.metres, deepest));
  }
}

}  // namespace castplan::sheet
