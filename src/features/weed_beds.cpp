// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "features/weed_beds.hpp"

#include <cmath>

#include "castplan/geo/planar.hpp"
#include "castplan/grid/sample.hpp"
#include "features/along.hpp"
#include "features/corners.hpp"

namespace castplan {

namespace {

constexpr Metres kStep(10);
// How far to either side of a bed's outline the depths are compared.
constexpr double kSide = 10;

// Runs of the line's points for which keep holds, as lines of their own.
template <class Keep>
Lines kept_runs(const Line& line, Keep keep) {
  Lines found;
  bool open = false;
  for (const XY at : line) {
    if (keep(at)) {
      if (!open) found.emplace_back();
      found.back().push_back(at);
      open = true;
    } else {
      open = false;
    }
  }
  // the two ends of a closed line that was kept at its start belong together
  if (found.size() > 1 && line.front() == line.back() && found.front().front() == line.front() &&
      found.back().back() == line.back()) {
    Line joined = std::move(found.back());
    joined.insert(joined.end(), found.front().begin() + 1, found.front().end());
    found.front() = std::move(joined);
    found.pop_back();
  }
  return found;
}

// Unit vector to the right of the line at a vertex: outwards for an anticlockwise ring.
XY outwards(const Line& line, std::size_t i) {
  const XY along = line[std::min(i + 1, line.size() - 1)] - line[i > 0 ? i - 1 : 0];
  const double size = std::hypot(along.x, along.y);
  return size > 0 ? XY{along.y / size, -along.x / size} : XY{};
}

// Broken at corners and where it is too long for one pass of a boat.
Lines passes_of(const Line& run, Metres longest) {
  Lines pieces;
  for (const Line& straight : parted_at(run, corners(run, kStep))) {
    const Lines parts = cut(straight, longest);
    pieces.insert(pieces.end(), parts.begin(), parts.end());
  }
  return pieces;
}

Feature edge_feature(const Ground& ground, Line line, WeedEdge edge, Metres depth) {
  line = begun_at_north(std::move(line));
  Feature feature;
  feature.kind = Kind::weed_line;
  feature.anchor = point_along(line, 0.5);
  feature.confidence = 0.9;  // design: as mapped by the user
  // the bed is there, however steep the floor
  feature.details = WeedLine{edge, WeedSource::mapped, depth, length(line), 1.0};
  feature.geometry = Lines{simplified(line, ground.lake.depth.frame().cell * 0.1)};
  return feature;
}

}  // namespace

Polygons areas_of(const Ground& ground, std::string_view kind) {
  Polygons areas;
  for (const MappedStructure& layer : ground.structure) {
    if (layer.kind != kind) continue;
    if (const auto* polygons = std::get_if<Polygons>(&layer.geometry)) {
      areas.insert(areas.end(), polygons->begin(), polygons->end());
    }
  }
  return areas;
}

std::vector<Feature> edges_of_bed(const Ground& ground, const DetectOptions& options, const Ring& ring) {
  std::vector<Feature> found;
  const Line line = resampled(ring, kStep);
  for (const WeedEdge edge : {WeedEdge::outside, WeedEdge::inside}) {
    std::size_t at = 0;
    const auto belongs = [&](XY place) {
      const XY out = outwards(line, at++);
      const float beyond = bilinear(ground.quiet().depth, place + out * kSide);
      const float within = bilinear(ground.quiet().depth, place - out * kSide);
      return edge == WeedEdge::outside ? beyond > within : beyond <= within;
    };
    for (const Line& run : kept_runs(line, belongs)) {
      if (run.size() < 2 || length(run) < options.weed_length) continue;
      for (Line& piece : passes_of(run, options.longest_piece)) {
        const float depth = bilinear(ground.quiet().depth, point_along(piece, 0.5));
        if (!(depth > 0)) continue;
        found.push_back(edge_feature(ground, std::move(piece), edge, Metres(depth)));
      }
    }
  }
  return found;
}

}  // namespace castplan
