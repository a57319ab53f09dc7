// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "survey/fit.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include "castplan/grid/distance.hpp"
#include "castplan/grid/sweep.hpp"
#include "survey/level.hpp"
#include "survey/regions.hpp"
#include "survey/solve.hpp"

namespace castplan::survey {
namespace {

constexpr int kPad = 3;              // cells round the frame, so that the plate has a rim even there
constexpr int kBeyond = 2;           // cells that the plate goes on beyond the water
constexpr double kLineWeight = 3.0;  // of a cell's length of contour or shore
constexpr double kLineStep = 0.5;    // cells between the points that stand for a line

/// A sounding with an error of 0.1 m on 5 m cells weighs as much as a second difference of 1 m in one cell: the surface
/// then follows features of about ten cells along a track and averages noise within. In proportion to the cell's area,
/// so that a finer grid does not follow the noise. Common practice, no source; tried on the surfaces of the tests.
double sounding_weight(Metres cell, Metres error) {
  const double relative = (cell.value() / 5.0) * (0.1 / std::max(error.value(), 1e-3));
  return std::clamp(relative * relative, 0.02, 10.0);
}

Datum datum_at(const Frame& frame, XY place, Metres depth, double weight) {
  return {.x = (place.x - frame.corner.x) / frame.cell.value() - 0.5 + kPad,
          .y = (frame.corner.y - place.y) / frame.cell.value() - 0.5 + kPad,
          .depth = static_cast<float>(depth.value()),
          .weight = static_cast<float>(weight)};
}

void add_line(const Frame& frame, const Line& line, Metres depth, Data& data) {
  if (line.size() < 2) return;
  const Line points = resampled(line, frame.cell * kLineStep);
  const double weight = kLineWeight * (length(line) / frame.cell) / static_cast<double>(points.size());
  for (const XY point : points) data.push_back(datum_at(frame, point, depth, std::max(weight, 1e-3)));
}

Data all_data(const Sources& sources, const SurfaceOptions& options) {
  const Frame& frame = sources.water.frame();
  Data data;
  const double weight = sounding_weight(frame.cell, options.sounding_error);
  for (const Sounding& sounding : sources.soundings) {
    data.push_back(datum_at(frame, sounding.at, Metres(sounding.depth), weight));
  }
  for (const DepthContour& contour : sources.contours) add_line(frame, contour.line, contour.depth, data);
  for (const Line& ring : sources.shore) add_line(frame, ring, Metres(0.0), data);
  return blocked(std::move(data));
}

bool water_near(const Grid<std::uint8_t>& water, int row, int col) {
  for (int r = std::max(row - kBeyond, 0); r <= std::min(row + kBeyond, water.rows() - 1); ++r) {
    for (int c = std::max(col - kBeyond, 0); c <= std::min(col + kBeyond, water.cols() - 1); ++c) {
      if (water[{r, c}]) return true;
    }
  }
  return false;
}

bool is_taut(const Regions& regions, const Frame& frame, Cell at) {
  if (regions.regions.empty() || !frame.holds(at)) return true;
  const std::int32_t number = regions.of_cell[at];
  return number < 0 || !regions.regions[static_cast<std::size_t>(number)].ends;
}

PlateProblem problem_of(const Sources& sources, const Regions& regions) {
  const Frame& frame = sources.water.frame();
  PlateProblem problem;
  problem.rows = frame.rows + 2 * kPad;
  problem.cols = frame.cols + 2 * kPad;
  const auto cols = static_cast<std::size_t>(problem.cols);
  problem.flags.assign(static_cast<std::size_t>(problem.rows) * cols, 0);
  sweep(problem.rows, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < problem.cols; ++col) {
        const Cell at{row - kPad, col - kPad};
        if (!water_near(sources.water, at.row, at.col)) continue;
        problem.flags[static_cast<std::size_t>(row) * cols + static_cast<std::size_t>(col)] =
            static_cast<std::uint8_t>(kPlate | (is_taut(regions, frame, at) ? kTaut : 0));
      }
    }
  });
  return problem;
}

Grid<Metres32> unpadded(const Frame& frame, const PlateProblem& shape, const std::vector<std::uint8_t>& flags,
                        const std::vector<float>& values) {
  Grid<Metres32> depth(frame, Metres32(std::numeric_limits<float>::quiet_NaN()));
  sweep(frame.rows, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < frame.cols; ++col) {
        const std::size_t at = static_cast<std::size_t>(row + kPad) * static_cast<std::size_t>(shape.cols) +
                               static_cast<std::size_t>(col + kPad);
        if (flags[at]) depth[{row, col}] = Metres32(values[at]);
      }
    }
  });
  return depth;
}

}  // namespace

Grid<std::uint8_t> cells_with_data(const Sources& sources) {
  const Grid<std::uint8_t>& water = sources.water;
  const Frame& frame = water.frame();
  Grid<std::uint8_t> marks(frame, 0);
  const auto mark = [&](XY place) {
    const Cell at = frame.cell_at(place);
    if (frame.holds(at)) marks[at] = 1;
  };
  for (const Sounding& sounding : sources.soundings) mark(sounding.at);
  for (const DepthContour& contour : sources.contours) {
    if (contour.line.size() < 2) continue;
    for (const XY point : resampled(contour.line, frame.cell * kLineStep)) mark(point);
  }
  sweep(frame.rows, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < frame.cols; ++col) {
        if (!water[{row, col}]) continue;
        for (const Cell beside : {Cell{row - 1, col}, Cell{row + 1, col}, Cell{row, col - 1}, Cell{row, col + 1}}) {
          if (frame.holds(beside) && !water[beside]) marks[{row, col}] = 1;
        }
      }
    }
  });
  return marks;
}

Grid<Metres32> distance_to_data(const Sources& sources) {
  const Grid<std::uint8_t> marks = cells_with_data(sources);
  return distance_to(marks.frame(), [&](Cell at) { return marks[at] != 0; });
}

Metres distance_quantile(const Sources& sources, const Grid<Metres32>& distance, double share) {
  const Metres cell = distance.frame().cell;
  std::vector<std::size_t> counts(1, 0);
  std::size_t total = 0;
  for (std::size_t i = 0; i < distance.size(); ++i) {
    if (!sources.water[i] || !std::isfinite(distance[i].value())) continue;
    const auto bin = static_cast<std::size_t>(10.0 * static_cast<double>(distance[i].value()) / cell.value());
    if (bin >= counts.size()) counts.resize(bin + 1, 0);
    ++counts[bin];
    ++total;
  }
  std::size_t below = 0;
  for (std::size_t bin = 0; bin < counts.size(); ++bin) {
    below += counts[bin];
    if (static_cast<double>(below) >= share * static_cast<double>(total)) {
      return cell * std::max(0.5, static_cast<double>(bin + 1) / 10.0);
    }
  }
  return cell * 0.5;
}

Grid<Metres32> fit_plate(const Sources& sources, Metres gap, const SurfaceOptions& options) {
  const Frame& frame = sources.water.frame();
  const Regions regions = find_regions(sources.water, sources.contours, sources.soundings);
  PlateProblem problem = problem_of(sources, regions);
  const double tension = std::clamp(options.tension, 0.0, 0.99);
  const double relative = frame.cell / gap;
  problem.stretch = static_cast<float>(tension / (1.0 - tension) * relative * relative);
  problem.data = all_data(sources, options);
  const std::vector<std::uint8_t> flags = problem.flags;
  const PlateProblem shape{.rows = problem.rows, .cols = problem.cols, .flags = {}, .data = {}};
  const PlateSolution solution = solve(std::move(problem));
  Grid<Metres32> depth = unpadded(frame, shape, flags, solution.values);
  keep_within(regions, depth);
  return depth;
}

}  // namespace castplan::survey
