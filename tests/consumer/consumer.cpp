// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0

// Makes a lake through the installed library and prints how deep and how large it is.
#include <algorithm>
#include <castplan/grid/lake.hpp>
#include <castplan/io/raster.hpp>
#include <castplan/season/weeds.hpp>
#include <castplan/write/folder.hpp>
#include <cstdio>

int main() {
  using namespace castplan;
  // a bowl: depth 12 (1 - r^2 / 200^2) metres, 5 m cells, the deepest place in the middle of a cell
  const Frame frame{.corner = {421000.0, 5039000.0}, .cell = Metres(5.0), .rows = 101, .cols = 101};
  Grid<Metres32> values(frame);
  const XY middle = frame.centre({50, 50});
  for (std::size_t cell = 0; cell < values.size(); ++cell) {
    const double r = distance(frame.centre(values.cell_of(cell)), middle).value() / 200.0;
    values[cell] = Metres32(static_cast<float>(12.0 * (1.0 - r * r)));
  }
  const Lake lake = make_lake(Projection::from_text("EPSG:32624"), values);
  std::printf("max_depth_m %.2f\narea_m2 %.0f\nbodies %zu\n", lake.max_depth.value(), lake.area.value(),
              lake.bodies.size());
  return 0;
}
