// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/survey/surface.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>

#include "castplan/geo/error.hpp"
#include "castplan/grid/inside.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/grid/sweep.hpp"
#include "survey/cross_validate.hpp"
#include "survey/fit.hpp"
#include "survey/regions.hpp"

namespace castplan {
namespace {

constexpr Metres32 kOutside{std::numeric_limits<float>::quiet_NaN()};

void check_contours(std::span<const DepthContour> contours) {
  for (std::size_t i = 0; i < contours.size(); ++i) {
    const double depth = contours[i].depth.value();
    if (!std::isfinite(depth) || depth < 0.0) {
      throw InputError(
          fmt::format("contour {}: depth {} m; expected a depth of 0 m or more, positive downwards; if the file counts "
                      "elevations or negative depths, say so with the sense of the layer",
                      i + 1, depth));
    }
  }
}

survey::Sources checked(const Frame& frame, const Polygons& shoreline, std::span<const Sounding> soundings,
                        std::span<const DepthContour> contours) {
  if (shoreline.empty()) {
    throw InputError("no shoreline: the surface needs the lake's outline as polygons; give it with --shoreline");
  }
  check_contours(contours);
  survey::Sources sources;
  sources.water = cells_inside(shoreline, frame);
  const auto wet = std::count(sources.water.cells().begin(), sources.water.cells().end(), 1);
  if (wet == 0) {
    throw InputError(fmt::format(
        "no cell of {} m has its centre inside the shoreline: the lake lies elsewhere (check the CRS of each "
        "file) or is smaller than a cell (take a smaller --cell)",
        frame.cell.value()));
  }
  for (const Polygon& polygon : shoreline) {
    sources.shore.push_back(polygon.outer);
    sources.shore.insert(sources.shore.end(), polygon.holes.begin(), polygon.holes.end());
  }
  for (const Sounding& sounding : soundings) {
    const Cell at = frame.cell_at(sounding.at);
    if (std::isfinite(sounding.depth.value()) && sounding.depth >= Metres32(0.0F) && frame.holds(at) &&
        sources.water[at]) {
      sources.soundings.push_back(sounding);
    }
  }
  sources.contours.assign(contours.begin(), contours.end());
  const bool any_depth = std::any_of(contours.begin(), contours.end(),
                                     [](const DepthContour& c) { return c.depth > Metres(0.0) && c.line.size() > 1; });
  if (sources.soundings.empty() && !any_depth) {
    throw InputError(fmt::format(
        "no depth inside the shoreline: {} soundings, none of them usable there, and {} contours, none of them deeper "
        "than 0 m; give soundings or contours of this lake (check their CRS, unit and sense)",
        soundings.size(), contours.size()));
  }
  return sources;
}

/// At least a little water: below twice the least depth the value bends towards it and never reaches it, so that no
/// flat arises.
Metres32 wet(Metres32 depth, Metres least) {
  const auto floor = static_cast<float>(least.value());
  const float value = depth.value();
  if (!(floor > 0.0F) || value >= 2.0F * floor) return std::max(depth, Metres32(0.0F));
  return Metres32(floor + floor * std::exp((value - 2.0F * floor) / floor));
}

void mask(const Grid<std::uint8_t>& water, Metres least, Grid<Metres32>& depth) {
  sweep(depth.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < depth.cols(); ++col) {
        const Cell at{row, col};
        depth[at] = water[at] ? wet(depth[at], least) : kOutside;
      }
    }
  });
}

Grid<Metres32> error_band(const Grid<std::uint8_t>& water, Grid<Metres32> distance, const ErrorCurve& curve) {
  sweep(distance.rows(), [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < distance.cols(); ++col) {
        Metres32& cell = distance[{row, col}];
        cell = water[{row, col}] ? Metres32(static_cast<float>(curve.at(Metres(cell)).value())) : kOutside;
      }
    }
  });
  return distance;
}

class MeanSquare {
 public:
  void add(double difference) {
    if (!std::isfinite(difference)) return;
    sum_ += difference * difference;
    ++count_;
  }
  [[nodiscard]] Metres root() const { return Metres(count_ > 0 ? std::sqrt(sum_ / static_cast<double>(count_)) : 0.0); }

 private:
  double sum_ = 0.0;
  std::size_t count_ = 0;
};

void measure(const survey::Sources& sources, const Grid<Metres32>& plate, Surface& surface) {
  MeanSquare at_soundings;
  MeanSquare at_contours;
  for (const Sounding& sounding : sources.soundings) {
    at_soundings.add(static_cast<double>(bilinear(plate, sounding.at)) - static_cast<double>(sounding.depth.value()));
    surface.deepest_datum = std::max(surface.deepest_datum, Metres(sounding.depth));
  }
  for (const DepthContour& contour : sources.contours) {
    for (const XY point : contour.line) {
      at_contours.add(static_cast<double>(bilinear(plate, point)) - contour.depth.value());
    }
    surface.deepest_datum = std::max(surface.deepest_datum, contour.depth);
  }
  surface.sounding_rmse = at_soundings.root();
  surface.contour_rmse = at_contours.root();
  surface.soundings = sources.soundings.size();
  surface.interval = Metres(survey::contour_interval(survey::contour_levels(sources.contours)));
}

void find_deepest(Surface& surface) {
  for (std::size_t i = 0; i < surface.depth.size(); ++i) {
    const Metres depth(surface.depth[i]);
    if (depth > surface.deepest) {
      surface.deepest = depth;
      surface.deepest_at = surface.depth.frame().centre(surface.depth.cell_of(i));
    }
  }
}

}  // namespace

Surface fit_surface(const Frame& frame, const Polygons& shoreline, std::span<const Sounding> soundings,
                    std::span<const DepthContour> contours, const SurfaceOptions& options) {
  const survey::Sources sources = checked(frame, shoreline, soundings, contours);
  Grid<Metres32> distance = survey::distance_to_data(sources);
  const Metres usual = 4.0 * survey::distance_quantile(sources, distance, 0.5);
  const Metres widest = survey::distance_quantile(sources, distance, 0.95);
  Surface surface;
  surface.depth = survey::fit_plate(sources, usual, options);
  measure(sources, surface.depth, surface);
  mask(sources.water, options.least_depth, surface.depth);
  surface.check = survey::cross_validate(sources, shoreline, widest, usual, options);
  surface.error = error_band(sources.water, std::move(distance), surface.check.curve);
  surface.flat_share = flat_share(surface.depth);
  find_deepest(surface);
  return surface;
}

double flat_share(const Grid<Metres32>& depth) {
  std::vector<std::size_t> flat(static_cast<std::size_t>(band_count(depth.rows())), 0);
  std::vector<std::size_t> known(flat.size(), 0);
  sweep(depth.rows(), [&](const Band& band) {
    const auto number = static_cast<std::size_t>(band.number);
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < depth.cols(); ++col) {
        const float here = depth[{row, col}].value();
        if (!std::isfinite(here)) continue;
        ++known[number];
        bool same = row > 0 && col > 0 && row + 1 < depth.rows() && col + 1 < depth.cols();
        for (int r = row - 1; r <= row + 1 && same; ++r) {
          for (int c = col - 1; c <= col + 1 && same; ++c) same = std::abs(depth[{r, c}].value() - here) <= 0.001F;
        }
        if (same) ++flat[number];
      }
    }
  });
  std::size_t flats = 0;
  std::size_t all = 0;
  for (std::size_t i = 0; i < flat.size(); ++i) {
    flats += flat[i];
    all += known[i];
  }
  return all > 0 ? static_cast<double>(flats) / static_cast<double>(all) : 0.0;
}

}  // namespace castplan
