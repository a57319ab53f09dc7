// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

// Lakes with a closed form, as a surveyor would bring them: a shoreline, contours, or the tracks of a boat.

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include "castplan/grid/isoline.hpp"
#include "castplan/grid/soundings.hpp"

namespace castplan::known {

struct KnownLake {
  std::string name;
  std::function<double(double)> radius;  ///< of the shore, metres, by the angle from east, radians
  std::function<double(XY)> depth;       ///< metres, positive down, 0 at the shore
  double interval = 3.0;                 ///< of its contours, metres
};

inline double share_of_radius(const std::function<double(double)>& radius, XY at) {
  return std::hypot(at.x, at.y) / radius(std::atan2(at.y, at.x));
}

inline bool in_water(const KnownLake& lake, XY at) { return share_of_radius(lake.radius, at) < 1.0; }

inline double round_shore(double) { return 500.0; }
inline double lobed_shore(double angle) { return 500.0 * (1.0 + 0.2 * std::cos(3.0 * angle)); }
inline double hill(XY at, XY centre, double width) {
  const XY away = at - centre;
  return std::exp(-dot(away, away) / (2.0 * width * width));
}

inline KnownLake paraboloid() {
  return {"paraboloid", round_shore, [](XY at) { return 20.0 * (1.0 - dot(at, at) / 250000.0); }};
}

inline KnownLake lobed() {
  return {"lobed paraboloid", lobed_shore, [](XY at) {
            const double share = share_of_radius(lobed_shore, at);
            return 20.0 * (1.0 - share * share);
          }};
}

/// Three holes of different width in a shallow bowl.
inline KnownLake holes() {
  return {"Gaussian holes", round_shore,
          [](XY at) {
            const double share = share_of_radius(round_shore, at);
            return (1.0 - share * share) * (6.0 + 9.0 * hill(at, {-180, 60}, 70) + 6.0 * hill(at, {160, 150}, 50) +
                                            5.0 * hill(at, {100, -200}, 90));
          },
          2.0};
}

/// A ridge that parts the basin.
inline KnownLake ridge() {
  return {"ridge", lobed_shore,
          [](XY at) {
            const double share = share_of_radius(lobed_shore, at);
            const double across = (at.x - 0.3 * at.y) / 60.0;
            return (1.0 - share * share) * (14.0 - 9.0 * std::exp(-across * across / 2.0));
          },
          2.0};
}

inline Ring shore_ring(const KnownLake& lake, double share = 1.0) {
  Ring ring;
  constexpr int kPoints = 2000;
  for (int i = 0; i < kPoints; ++i) {
    const double angle = 2.0 * std::numbers::pi * i / kPoints;
    ring.push_back({share * lake.radius(angle) * std::cos(angle), share * lake.radius(angle) * std::sin(angle)});
  }
  ring.push_back(ring.front());
  return ring;
}

inline Polygons shoreline(const KnownLake& lake) { return {{.outer = shore_ring(lake), .holes = {}}}; }

inline Frame frame_of(double cell = 5.0, double half = 620.0) {
  const int size = 2 * static_cast<int>(std::lround(half / cell));
  return {.corner = {-half, half}, .cell = Metres(cell), .rows = size, .cols = size};
}

inline Grid<Metres32> on_grid(const KnownLake& lake, const Frame& frame) {
  Grid<Metres32> grid(frame);
  for (std::size_t i = 0; i < grid.size(); ++i) {
    grid[i] = Metres32(static_cast<float>(lake.depth(frame.centre(grid.cell_of(i)))));
  }
  return grid;
}

/// Digitised on a 2 m grid: linear between its nodes, so true to a few millimetres here. Closed forms go on beyond the
/// shore, so that contours near it are whole.
inline std::vector<DepthContour> contours(const KnownLake& lake) {
  const Grid<Metres32> fine = on_grid(lake, frame_of(2.0));
  std::vector<DepthContour> result;
  for (int k = 1; k * lake.interval < 40.0; ++k) {
    const double depth = k * lake.interval;
    for (Line& line : isolines(fine, static_cast<float>(depth))) {
      if (in_water(lake, line.front())) result.push_back({.line = std::move(line), .depth = Metres(depth)});
    }
  }
  return result;
}

inline Sounding sounding(XY at, double depth) { return {.at = at, .depth = Metres32(static_cast<float>(depth))}; }

struct Tracks {
  double apart = 40.0;    ///< metres between lines
  double step = 5.0;      ///< metres along them
  double noise = 0.1;     ///< metres, standard deviation
  double heading = 20.0;  ///< degrees from north
  unsigned seed = 7;
};

/// There and back across the lake on parallel lines.
inline std::vector<Sounding> tracks(const KnownLake& lake, const Tracks& how = {}) {
  std::mt19937_64 random(how.seed);
  std::normal_distribution<double> noise(0.0, how.noise);
  const double angle = how.heading * std::numbers::pi / 180.0;
  const XY along{std::sin(angle), std::cos(angle)};
  const XY across{std::cos(angle), -std::sin(angle)};
  std::vector<Sounding> soundings;
  bool back = false;
  for (double side = -620.0 + how.apart / 2; side < 620.0; side += how.apart, back = !back) {
    for (double way = -620.0; way < 620.0; way += how.step) {
      const XY place = along * (back ? -way : way) + across * side;
      const double depth = lake.depth(place);
      if (!in_water(lake, place) || depth < 0.3) continue;
      soundings.push_back(sounding(place, std::max(0.05, depth + noise(random))));
    }
  }
  return soundings;
}

struct Score {
  double rmse{};
  double worst{};
  double deepest{};
  double true_deepest{};
};

inline Score score(const KnownLake& lake, const Grid<Metres32>& depth) {
  Score result;
  double squares = 0.0;
  double count = 0.0;
  for (std::size_t i = 0; i < depth.size(); ++i) {
    const XY at = depth.frame().centre(depth.cell_of(i));
    if (!in_water(lake, at) || !std::isfinite(depth[i].value())) continue;
    const double found = static_cast<double>(depth[i].value());
    const double error = found - lake.depth(at);
    squares += error * error;
    count += 1.0;
    result.worst = std::max(result.worst, std::abs(error));
    result.deepest = std::max(result.deepest, found);
    result.true_deepest = std::max(result.true_deepest, lake.depth(at));
  }
  result.rmse = std::sqrt(squares / count);
  return result;
}

}  // namespace castplan::known
