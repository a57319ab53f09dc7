// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/passes.hpp"

#include <algorithm>
#include <cmath>

#include "spots/lane.hpp"

namespace castplan {

namespace {

constexpr std::size_t kFewestPlaces = 7;  // 10 m apart: the shortest lane
constexpr std::size_t kMostPlaces = 31;   // the longest
constexpr double kWorthTheWay = 0.5;      // of the best of a stretch: its ends are cut back to it; design choice
constexpr double kSameWater = 0.5;        // share of a lane that a better one passes too

/// Long edges with deeper water along them.
bool is_followed(const Feature& feature) {
  const auto* weeds = std::get_if<WeedLine>(&feature.details);
  return feature.kind == Kind::drop_off || feature.kind == Kind::hump ||
         (weeds != nullptr && weeds->edge == WeedEdge::outside);
}

bool is_ring(const Line& line) { return line.size() > 3 && line.front() == line.back(); }

void add_worth_going(std::span<const Target> places, std::vector<Stretch>& found) {
  double best = 0, sum = 0;
  for (const Target& place : places) best = std::max(best, place.score);
  while (!places.empty() && places.front().score < kWorthTheWay * best) places = places.subspan(1);
  while (!places.empty() && places.back().score < kWorthTheWay * best) places = places.first(places.size() - 1);
  if (places.size() < kFewestPlaces) return;
  for (const Target& place : places) sum += place.score;
  found.push_back({places, std::round(sum / static_cast<double>(places.size()) * 1e6) / 1e6});
}

/// In parts of equal length, so that none is too long and none runs round until it meets its own beginning.
void add_parts(std::span<const Target> places, std::vector<Stretch>& found) {
  const std::size_t steps = places.size() - 1;
  std::size_t parts = std::max<std::size_t>(1, (steps + kMostPlaces - 2) / (kMostPlaces - 1));
  if (is_ring(*places.front().edge) && steps * kFineInStep + kFineInStep > places.front().edge->size()) {
    parts = std::max<std::size_t>(parts, 2);
  }
  for (std::size_t i = 0; i < parts; ++i) {
    const std::size_t first = steps * i / parts, last = steps * (i + 1) / parts;
    add_worth_going(places.subspan(first, last - first + 1), found);
  }
}

std::vector<Stretch> stretches_of(std::span<const Target> judged) {
  std::vector<Stretch> found;
  const auto joins = [&](const Target& before, const Target& next) {
    return next.edge == before.edge && next.on_edge == before.on_edge + kFineInStep;
  };
  for (std::size_t first = 0; first < judged.size();) {
    std::size_t end = first + 1;
    if (judged[first].edge && judged[first].score > 0 && is_followed(*judged[first].feature)) {
      while (end < judged.size() && judged[end].score > 0 && joins(judged[end - 1], judged[end])) ++end;
      if (end - first >= kFewestPlaces) add_parts(judged.subspan(first, end - first), found);
    }
    first = end;
  }
  // decimetres: noise far below a cell must not decide
  const auto place = [](const Stretch& each) {
    const XY at = each.places[each.places.size() / 2].at;
    return std::pair(-std::llround(at.y * 10), std::llround(at.x * 10));
  };
  std::sort(found.begin(), found.end(), [&](const Stretch& a, const Stretch& b) {
    return a.worth != b.worth ? a.worth > b.worth : place(a) < place(b);
  });
  return found;
}

/// Knows the places that lanes pass already.
class Passed {
 public:
  void add(const Lane& lane) {
    for (const LaneCast& cast : lane.casts) places_.push_back(cast.target->at);
  }
  template <class Places, class At>
  [[nodiscard]] bool mostly(const Places& places, const At& at) const {
    std::size_t seen = 0;
    for (const auto& each : places) {
      seen += std::any_of(places_.begin(), places_.end(),
                          [&](XY other) { return distance(at(each), other) < kWithinCast; });
    }
    return static_cast<double>(seen) > kSameWater * static_cast<double>(places.size());
  }

 private:
  Points places_;
};

/// Lanes past water that no better stretch had, best first, as many as are wanted.
std::vector<Lane> edge_lanes(std::span<const Stretch> stretches, const PassGround& ground) {
  const auto most = static_cast<std::size_t>(ground.options.most);
  const auto gathered = static_cast<std::size_t>(std::max(kGathered, ground.options.most));
  Passed passed;
  std::vector<std::pair<double, Lane>> found;
  for (const Stretch& stretch : stretches) {
    if (found.size() >= gathered) break;
    if (passed.mostly(stretch.places, [](const Target& target) { return target.at; })) continue;
    for (Lane& lane : lanes_past(stretch.places, ground, {})) {
      if (passed.mostly(lane.casts, [](const LaneCast& cast) { return cast.target->at; })) continue;
      if (ground.weather.too_rough_along(lane.way)) continue;
      passed.add(lane);
      const double score = product_of(mean_why(lane));
      if (score > 0) found.emplace_back(score, std::move(lane));
    }
  }
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<Lane> best;
  for (std::size_t i = 0; i < std::min(most, found.size()); ++i) best.push_back(std::move(found[i].second));
  return best;
}

}  // namespace

std::vector<Pass> find_passes(std::span<const Target> judged, const PassGround& ground) {
  if (ground.options.most <= 0) return {};
  const std::vector<Stretch> stretches = stretches_of(judged);
  std::vector<Pass> passes;
  for (Lane& lane : edge_lanes(stretches, ground)) passes.push_back(make_pass(std::move(lane), ground));
  // beside those asked for: their low confidence would never let them stand among them
  for (Pass& pass : open_water_passes(stretches, ground)) {
    if (pass.score > 0) passes.push_back(std::move(pass));
  }
  std::stable_sort(passes.begin(), passes.end(), [](const Pass& a, const Pass& b) { return a.score > b.score; });
  for (std::size_t i = 0; i < passes.size(); ++i) passes[i].rank = static_cast<int>(i) + 1;
  return passes;
}

}  // namespace castplan
