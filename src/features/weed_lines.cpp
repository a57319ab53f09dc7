// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>

#include "castplan/features/detect.hpp"
#include "castplan/features/weed_density.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/isoline.hpp"
#include "castplan/grid/sample.hpp"
#include "features/made_apart.hpp"

namespace castplan {

namespace {

constexpr Metres kStep(10);
// An expected edge is no news within this distance of a bed that somebody mapped.
constexpr Metres kMappedReach(40);
// How far to either side of a bed's outline the depths are compared.
constexpr double kSide = 10;

double confidence_of(WeedSource source) {
  switch (source) {  // design: how far the edge is trusted
    case WeedSource::mapped:
      return 0.9;
    case WeedSource::observed:
      return 0.8;
    case WeedSource::fitted:
      return 0.7;
    case WeedSource::predicted:
      return 0.5;
  }
  return 0;
}

double mean_density(const Ground& ground, const Line& line) {
  double sum = 0;
  int count = 0;
  for (const XY at : resampled(line, kStep)) {
    const XY gradient = gradient_at(ground.smooth, at);
    const double slope = 100 * std::hypot(gradient.x, gradient.y);
    if (std::isnan(slope)) continue;
    sum += weed_density_at(slope);
    ++count;
  }
  return count > 0 ? sum / count : 0;
}

Feature weed_feature(const Ground& ground, Line line, WeedEdge edge, WeedSource source, Metres depth) {
  line = begun_at_north(std::move(line));
  Feature feature;
  feature.kind = Kind::weed_line;
  feature.anchor = point_along(line, 0.5);
  feature.confidence = confidence_of(source);
  // a mapped bed is there, however steep the floor
  const double density = source == WeedSource::mapped ? 1.0 : mean_density(ground, line);
  feature.details = WeedLine{edge, source, depth, length(line), density};
  feature.geometry = Lines{simplified(line, ground.lake.depth.frame().cell * 0.1)};
  return feature;
}

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

std::vector<Feature> expected_edges(const Ground& ground, const DetectOptions& options, const Polygons& beds) {
  std::vector<Feature> found;
  const auto [depth, source] = *ground.weeds;
  const PreparedShape mapped{Geometry{beds}};
  const auto is_news = [&](XY at) { return beds.empty() || mapped.distance_to(at) > kMappedReach; };
  for (const Line& line : isolines(ground.quiet().depth, static_cast<float>(depth.value()))) {
    if (length(line) < options.weed_length) continue;
    const Line whole = begun_at_north(line);
    for (const Line& run : beds.empty() ? Lines{whole} : kept_runs(resampled(whole, kStep), is_news)) {
      if (run.size() < 2 || length(run) < options.weed_length) continue;
      for (Line& piece : cut(run, options.longest_piece)) {
        found.push_back(weed_feature(ground, std::move(piece), WeedEdge::outside, source, depth));
      }
    }
  }
  return found;
}

// Unit vector to the right of the line at a vertex: outwards for an anticlockwise ring.
XY outwards(const Line& line, std::size_t i) {
  const XY along = line[std::min(i + 1, line.size() - 1)] - line[i > 0 ? i - 1 : 0];
  const double size = std::hypot(along.x, along.y);
  return size > 0 ? XY{along.y / size, -along.x / size} : XY{};
}

// A bed's outline is an outside edge where the water deepens away from the bed, an inside edge where it shoals.
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
      for (Line& piece : cut(run, options.longest_piece)) {
        const float depth = bilinear(ground.quiet().depth, point_along(piece, 0.5));
        if (!(depth > 0)) continue;
        found.push_back(weed_feature(ground, std::move(piece), edge, WeedSource::mapped, Metres(depth)));
      }
    }
  }
  return found;
}

Polygons mapped_beds(const Ground& ground) {
  Polygons beds;
  for (const MappedStructure& layer : ground.structure) {
    if (layer.kind != "weeds") continue;
    if (const auto* polygons = std::get_if<Polygons>(&layer.geometry)) {
      beds.insert(beds.end(), polygons->begin(), polygons->end());
    }
  }
  return beds;
}

}  // namespace

std::vector<Feature> find_weed_lines(const Ground& ground, const DetectOptions& options) {
  const Polygons beds = mapped_beds(ground);
  std::vector<Feature> found;
  for (const Polygon& bed : beds) {
    for (Feature& edge : edges_of_bed(ground, options, bed.outer)) found.push_back(std::move(edge));
  }
  if (ground.weeds) {
    for (Feature& edge : expected_edges(ground, options, beds)) found.push_back(std::move(edge));
  }
  return numbered(std::move(found), "Weed line");
}

}  // namespace castplan
