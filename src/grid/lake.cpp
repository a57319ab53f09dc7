// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/grid/lake.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <string>
#include <utility>

#include "castplan/geo/error.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/grid/sweep.hpp"
#include "grid/bodies.hpp"
#include "grid/cover_rows.hpp"
#include "grid/shore.hpp"

namespace castplan {
namespace {

constexpr float kNaN = std::numeric_limits<float>::quiet_NaN();

Cover cover_of(float value) {
  if (value > 0.0F) return std::isfinite(value) ? Cover::water : Cover::unknown;
  return value <= 0.0F ? Cover::land : Cover::unknown;  // NaN is neither
}

Grid<Cover> covers(const Grid<Metres32>& values) {
  Grid<Cover> cover(values.frame());
  sweep(values.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      std::transform(values.row(row).begin(), values.row(row).end(), cover.row(row).begin(),
                     [](Metres32 value) { return cover_of(value.value()); });
    }
  });
  return cover;
}

void refuse_without_water(const Grid<Metres32>& values, const Grid<Cover>& cover) {
  if (std::find(cover.cells().begin(), cover.cells().end(), Cover::water) != cover.cells().end()) return;
  const auto count = [&](Cover which) { return std::count(cover.cells().begin(), cover.cells().end(), which); };
  float low = std::numeric_limits<float>::infinity();
  float high = -low;
  for (const Metres32 value : values.cells()) {
    if (!std::isfinite(value.value())) continue;
    low = std::min(low, value.value());
    high = std::max(high, value.value());
  }
  const double percent = 100.0 / static_cast<double>(std::max<std::size_t>(cover.size(), 1));
  const std::string range = low <= high ? fmt::format("values from {:.2f} to {:.2f} m below the surface", low, high)
                                        : std::string("no cell has a finite value");
  throw InputError(fmt::format(
      "no water: {:.1f} % of {} cells are unknown and {:.1f} % land; {}, but water has values above 0; check the sense "
      "of the values (depth, height or elevation), the surface and the nodata value",
      percent * static_cast<double>(count(Cover::unknown)), cover.size(),
      percent * static_cast<double>(count(Cover::land)), range));
}

/// Turns values into depths: 0 on land cells that touch water, NaN elsewhere outside water.
void keep_depths(const Grid<Cover>& cover, Grid<Metres32>& values) {
  sweep(values.rows(), [&](const Band& band) {
    CoverRows covers(cover);
    for (int row = band.first; row < band.last; ++row) {
      covers.move_to(row);
      covers.keep_depths(values.row(row));
    }
  });
}

/// Share of the sides between water and anything else that lie between water and the unknown.
double unknown_edge_share(const Grid<Cover>& cover) {
  std::vector<CoverRows::Sides> counts(static_cast<std::size_t>(band_count(cover.rows())));
  sweep(cover.rows(), [&](const Band& band) {
    CoverRows::Sides& count = counts[static_cast<std::size_t>(band.number)];
    CoverRows covers(cover);
    for (int row = band.first; row < band.last; ++row) {
      covers.move_to(row);
      const CoverRows::Sides sides = covers.sides();
      count.all += sides.all;
      count.unknown += sides.unknown;
    }
  });
  CoverRows::Sides sum;
  for (const CoverRows::Sides& count : counts) {
    sum.all += count.all;
    sum.unknown += count.unknown;
  }
  return static_cast<double>(sum.unknown) / static_cast<double>(sum.all);
}

void sum_up(Lake& lake) {
  for (const WaterBody& body : lake.bodies) {
    lake.area += body.area;
    lake.volume += body.volume;
    lake.max_depth = std::max(lake.max_depth, body.max_depth);
  }
  lake.mean_depth = Metres(lake.volume.value() / lake.area.value());
}

/// Outer ring of the largest body: of the polygon that holds its deepest place, else of the largest polygon.
const Ring& main_ring(const Lake& lake) {
  const auto largest = std::max_element(lake.outline.begin(), lake.outline.end(), [](const auto& a, const auto& b) {
    return std::abs(signed_area(a.outer).value()) < std::abs(signed_area(b.outer).value());
  });
  if (contains(largest->outer, lake.bodies.front().deepest)) return largest->outer;
  const auto holding = std::find_if(lake.outline.begin(), lake.outline.end(), [&](const Polygon& polygon) {
    return contains(polygon.outer, lake.bodies.front().deepest);
  });
  return holding != lake.outline.end() ? holding->outer : largest->outer;
}

double development(Metres perimeter, SquareMetres enclosed) {
  return perimeter.value() / (2.0 * std::sqrt(std::numbers::pi * std::abs(enclosed.value())));
}

void measure_given_shore(Lake& lake) {
  for (const Polygon& polygon : lake.outline) {
    lake.shoreline += length(polygon.outer);
    for (const Ring& hole : polygon.holes) lake.shoreline += length(hole);
  }
  const Ring& ring = main_ring(lake);
  lake.shoreline_development = development(length(ring), signed_area(ring));
}

void measure_traced_shore(Lake& lake, const FieldRows& field) {
  Shore shore = trace_shore(field);
  lake.outline = std::move(shore.outline);
  lake.shoreline = shore.length;
  const Ring& ring = main_ring(lake);
  lake.shoreline_development = development(smooth_length(ring), signed_area(ring));
}

}  // namespace

Lake make_lake(Projection projection, Grid<Metres32> values, Polygons outline) {
  Lake lake;
  lake.projection = std::move(projection);
  lake.cover = covers(values);
  refuse_without_water(values, lake.cover);
  lake.cut_share = unknown_edge_share(lake.cover);
  Bodies bodies = find_bodies(values, lake.cover);
  lake.body_of = std::move(bodies.body_of);
  lake.bodies = std::move(bodies.bodies);
  sum_up(lake);
  if (outline.empty()) {
    measure_traced_shore(lake, shore_rows(values, lake.cover));
  } else {
    lake.outline = std::move(outline);
    measure_given_shore(lake);
  }
  keep_depths(lake.cover, values);
  lake.depth = std::move(values);
  return lake;
}

float depth_at(const Lake& lake, XY place) { return bilinear(lake.depth, place); }

Metres error_at(const Lake& lake, XY place) {
  if (lake.error.size() == 0) return lake.depth_error;
  const Cell at = lake.error.frame().cell_at(place);
  if (!lake.error.holds(at) || std::isnan(lake.error[at].value())) return lake.depth_error;
  return Metres(static_cast<double>(lake.error[at].value()));
}

LonLat middle_of(const Lake& lake) {
  const Frame& frame = lake.depth.frame();
  return lake.projection.to_lonlat(frame.centre({frame.rows / 2, frame.cols / 2}));
}

Cover cover_at(const Grid<Cover>& cover, XY place) {
  const Cell at = cover.frame().cell_at(place);
  return cover.holds(at) ? cover[at] : Cover::unknown;
}

}  // namespace castplan
