// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>

#include "castplan/features/detect.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/grid/isoline.hpp"
#include "features/bends.hpp"
#include "features/made_apart.hpp"
#include "features/weed_beds.hpp"
#include "features/weed_runs.hpp"

namespace castplan {

namespace {

constexpr Metres kStep(10);          // between places, or a cell where that is less
constexpr Metres kBendStep(5);       // between places where the bend of an edge is taken
constexpr double kInsideLess = 0.8;  // of the confidence of an outside edge: it hangs on the wind as well
constexpr double kWhole = 0.995;     // less than this share of the plants is a loss worth a word

/// All that is said of the edges of one contour.
struct Edges {
  const Ground& ground;
  const DetectOptions& options;
  const WeedGround& weeds;
  WeedEdge edge;
};

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

/// Most of those with plants lie at a break.
bool mostly_at_break(const std::vector<WeedPlace>& places) {
  std::ptrdiff_t balance = 0;
  for (const WeedPlace& place : places) balance += place.bare ? 0 : place.at_break ? 1 : -1;
  return balance > 0;
}

// Of the places with plants, and of those at the break or those at the light's depth, whichever are more.
Metres median_depth(const std::vector<WeedPlace>& places) {
  const bool at_break = mostly_at_break(places);
  std::vector<double> depths;
  for (const WeedPlace& place : places) {
    if (!place.bare && place.at_break == at_break) depths.push_back(place.depth.value());
  }
  if (depths.empty()) return places.front().depth;
  const auto middle = depths.begin() + static_cast<std::ptrdiff_t>(depths.size() / 2);
  std::nth_element(depths.begin(), middle, depths.end());
  return Metres(*middle);
}

/// Places for which the test holds, as a share of all.
template <class Test>
double share_of(const std::vector<WeedPlace>& places, Test test) {
  return static_cast<double>(std::count_if(places.begin(), places.end(), test)) / static_cast<double>(places.size());
}

// Few plants stand where the level falls far; where the edge was seen or sounded they do.
double swing_share(const Edges& edges, Metres depth) {
  const bool few = edges.ground.weeds->source == WeedSource::predicted && depth < edges.weeds.swing_bottom();
  return few ? edges.options.weed_swing_share : 1.0;
}

// Plants that stand, as a share of those that light alone would let grow, and what took the rest.
void set_density(WeedLine& line, const Edges& edges, const std::vector<WeedPlace>& places) {
  double stand = 0;
  int count = 0, growing = 0;
  for (const WeedPlace& place : places) {
    if (std::isnan(place.stand)) continue;
    ++count;
    if (place.bare) continue;
    ++growing;
    stand += place.stand;
  }
  const double swing = swing_share(edges, line.depth);
  line.density = count > 0 ? stand / count * swing : 0;
  const auto lost_to = [&](WeedLoss loss) {
    return share_of(places, [&](const WeedPlace& place) { return place.bare == loss; }) > 1 - kWhole;
  };
  if ((growing > 0 && stand / growing < kWhole) || lost_to(WeedLoss::steepness)) {
    line.lowered_by.push_back(WeedLoss::steepness);
  }
  for (const WeedLoss loss : {WeedLoss::scour, WeedLoss::rock}) {
    if (lost_to(loss)) line.lowered_by.push_back(loss);
  }
  if (swing < 1) line.lowered_by.push_back(WeedLoss::level_swing);
}

void set_unknown(WeedLine& line, const Edges& edges, const std::vector<WeedPlace>& places) {
  if (share_of(places, [](const WeedPlace& place) { return !place.waves_known; }) > 0) {
    line.not_assessed.push_back(WeedLoss::scour);
  }
  if (!edges.weeds.rock_known()) line.not_assessed.push_back(WeedLoss::rock);
  if (!edges.ground.swing) line.not_assessed.push_back(WeedLoss::level_swing);
}

void set_band(WeedLine& line, const WeedKnowledge& known) {
  if (line.edge == WeedEdge::inside) return;
  line.depth_low = known.low;
  line.depth_high = known.high;
  if (!line.at_break) {
    line.deepest = known.deepest;
    return;
  }
  // light that ends above the break ends the plants there; with more light they still end at the break
  if (line.depth_low) line.depth_low = std::min(*line.depth_low, line.depth);
  if (line.depth_high) line.depth_high = std::min(*line.depth_high, line.depth);
}

Feature feature_of(const Edges& edges, const WeedRun& piece) {
  const WeedKnowledge& known = *edges.ground.weeds;
  const Line line = begun_at_north(line_of(piece.places));
  Feature feature;
  feature.kind = Kind::weed_line;
  feature.anchor = point_along(line, 0.5);
  feature.confidence = confidence_of(known.source);
  WeedLine details{edges.edge, known.source, median_depth(piece.places), length(line), 0};
  details.at_break = mostly_at_break(piece.places);
  if (edges.edge == WeedEdge::inside) {
    // an edge that a formula gives, whatever the outside edge comes from
    details.source = WeedSource::predicted;
    feature.confidence = confidence_of(WeedSource::predicted) * kInsideLess;
    const bool by_waves =
        share_of(piece.places, [](const WeedPlace& place) { return place.above == WeedLoss::scour; }) >= 0.5;
    details.bare_above = by_waves ? WeedLoss::scour : WeedLoss::level_swing;
  }
  set_band(details, known);
  set_density(details, edges, piece.places);
  set_unknown(details, edges, piece.places);
  details.gaps = piece.gaps;
  feature.details = std::move(details);
  feature.geometry = Lines{simplified(line, edges.ground.lake.depth.frame().cell * 0.1)};
  return feature;
}

// The piece that a place lies on: the first of those that come nearest.
WeedLine& nearest_piece(std::span<Feature> pieces, XY at) {
  Feature* nearest = &pieces.front();
  double least = HUGE_VAL;
  for (Feature& piece : pieces) {
    const double away = distance(at, std::get<Lines>(piece.geometry).front()).value();
    if (away >= least) continue;
    least = away;
    nearest = &piece;
  }
  return std::get<WeedLine>(nearest->details);
}

// Bends of a run, by the same measure as points and inside turns of the floor.
void set_bends(std::span<Feature> pieces, const Line& run, const DetectOptions& options) {
  for (const bool outward : {true, false}) {
    const BendOptions wanted{options.point_window, kBendStep, options.point_turn, outward};
    for (const Bend& bend : bends({run}, 0, wanted)) {
      WeedLine& piece = nearest_piece(pieces, bend.at);
      (outward ? piece.points : piece.turns).push_back(bend.at);
    }
  }
}

void add_edges(std::vector<Feature>& found, const Edges& edges, const Line& contour) {
  const DetectOptions& options = edges.options;
  if (length(contour) < options.weed_length) return;
  const bool closed = contour.front() == contour.back();
  const Metres step = std::min(kStep, edges.ground.lake.depth.frame().cell);
  const Line along = resampled(closed ? begun_at_north(contour) : contour, step);
  auto places = edges.edge == WeedEdge::outside ? edges.weeds.outside(along) : edges.weeds.inside(along);
  for (const WeedRun& run : weed_runs(std::move(places), closed, options)) {
    const Line whole = line_of(run.places);
    if (whole.size() < 2 || length(whole) < options.weed_length) continue;
    if (edges.edge == WeedEdge::inside && median_depth(run.places) < edges.weeds.inside_least()) continue;
    const std::size_t first = found.size();
    for (const WeedRun& piece : cut_run(run, step, options.longest_piece)) {
      if (line_of(piece.places).size() > 1) found.push_back(feature_of(edges, piece));
    }
    if (found.size() > first) set_bends(std::span(found).subspan(first), whole, options);
  }
}

}  // namespace

std::vector<Feature> find_weed_lines(const Ground& ground, const DetectOptions& options) {
  std::vector<Feature> found;
  for (const Polygon& bed : areas_of(ground, "weeds")) {
    for (Feature& edge : edges_of_bed(ground, options, bed.outer)) found.push_back(std::move(edge));
  }
  if (ground.weeds) {
    const WeedGround weeds(ground, options);
    for (const WeedEdge edge : {WeedEdge::outside, WeedEdge::inside}) {
      const Metres depth = edge == WeedEdge::outside ? ground.weeds->depth : weeds.inside_depth();
      for (const Line& line : isolines(ground.quiet().depth, static_cast<float>(depth.value()))) {
        add_edges(found, {ground, options, weeds, edge}, line);
      }
    }
  }
  return numbered(std::move(found), "Weed line");
}

}  // namespace castplan
