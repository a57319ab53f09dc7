// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "spots/lane.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "castplan/grid/sample.hpp"
#include "spots/along.hpp"
#include "spots/printed.hpp"

namespace castplan {

namespace {

constexpr Metres kFromShore(10);
constexpr Metres kStraighter(1);     // of the edge, before the lane is laid beside it,
constexpr Metres kFewerPlaces(0.5);  // and of the lane: less than a receiver on a boat tells
constexpr double kSlack = 0.7;       // so that neither takes a cast out of its range
constexpr double kNarrowest = 3;     // metres: a narrower range of casts is taken for one as wide
constexpr double kLookStep = 3, kDepthStep = 1;
constexpr int kDepthsALook = 4;      // what lies further off is asked for at fewer places
constexpr Metres kCloseBy(8);        // from the edge, where the casts go away from it
constexpr std::size_t kTangent = 4;  // steps on the edge to each side that tell which way it runs

/// Shortest and longest way from the boat to what is fished.
std::pair<double, double> reach_of(const SpotOptions& options) {
  const double middle = (options.cast_from + options.cast_to).value() / 2;
  const double low = std::min(options.cast_from.value(), middle - kNarrowest / 2);
  const double high = std::max(options.cast_to.value(), middle + kNarrowest / 2);
  return {low - kPast.value(), high - kPast.value()};
}

/// To the left of the edge, length 1.
XY left_at(const Line& edge, std::size_t place) {
  const std::size_t before = place - std::min(place, kTangent);
  const std::size_t after = std::min(place + kTangent, edge.size() - 1);
  const XY along = unit(edge[after] - edge[before]);
  return {-along.y, along.x};
}

/// 1 where the water to the left of the edge is deeper, -1 to the right.
double deep_side(std::span<const Target> stretch, const Lake& lake, Metres away) {
  int left = 0;
  for (const Target& target : stretch) {
    const XY place = (*target.edge)[target.on_edge];
    const XY aside = left_at(*target.edge, target.on_edge) * away.value();
    const float here = bilinear(lake.depth, place + aside), there = bilinear(lake.depth, place - aside);
    if (here > there || (std::isnan(there) && here > 0)) ++left;
    if (there > here || (std::isnan(here) && there > 0)) --left;
  }
  return left >= 0 ? 1 : -1;
}

/// The distance from the edge: so that the median target is a middle cast away.
double offset_of(std::span<const Target> stretch, double side, const SpotOptions& options) {
  const auto [low, high] = reach_of(options);
  std::vector<double> nearer;  // how far the targets lie from the edge towards the boat
  for (const Target& target : stretch) {
    const XY off = target.at - (*target.edge)[target.on_edge];
    nearer.push_back(dot(off, left_at(*target.edge, target.on_edge)) * side);
  }
  const auto middle = nearer.begin() + static_cast<std::ptrdiff_t>(nearer.size() / 2);
  std::nth_element(nearer.begin(), middle, nearer.end());
  return std::clamp(std::round((low + high) / 2 + *middle), low + kSlack, high - kSlack);
}

/// Lays lanes on one line beside the edge.
class LaneLayer {
 public:
  /// least: from any part of the edge, bends beyond the stretch included.
  LaneLayer(const PassGround& ground, const LaneWish& wish, const PreparedShape& edge, Metres least, Along line)
      : lake_(ground.lake),
        boats_(ground.boats),
        options_(ground.options),
        wish_(wish),
        edge_(edge),
        least_(least),
        line_(std::move(line)) {
    const int steps = std::max(1, static_cast<int>(std::ceil(line_.length() / kLookStep)));
    bad_.push_back(0);
    for (int i = 0; i <= steps; ++i) bad_.push_back(bad_.back() + (fits(line_.at(line_.length() * i / steps)) ? 0 : 1));
  }

  [[nodiscard]] std::vector<Lane> lanes(std::span<const Target> stretch) const {
    std::vector<Lane> found;
    std::vector<LaneCast> run;
    const auto end_run = [&] {
      if (auto lane = finished(run)) found.push_back(std::move(*lane));
      run.clear();
    };
    for (const Target& target : stretch) {
      const auto cast = cast_from(line_, target, kSlack);
      if (!cast || (!run.empty() && !goes_on(run.back(), *cast))) end_run();
      if (cast) run.push_back(*cast);
    }
    end_run();
    return found;
  }

 private:
  [[nodiscard]] bool fits(XY place) const {
    const float depth = bilinear(lake_.depth, place);
    return depth >= boats_.wanted_depth().value() && boats_.may_float(place, depth) &&
           boats_.from_shore(place) >= kFromShore && edge_.distance_to(place) >= least_;
  }

  /// Without what `is_clear` tells of the whole way.
  [[nodiscard]] bool floats(XY place) const {
    const Metres thin = std::max(Metres(0), error_at(lake_, place) - lake_.depth_error);
    return bilinear(lake_.depth, place) >= std::max(boats_.wanted_depth(), boats_.floats() + thin).value() &&
           cover_at(lake_, place) == Cover::water;
  }

  [[nodiscard]] bool goes_on(const LaneCast& before, const LaneCast& next) const {
    if (next.along < before.along) return false;
    const auto number = [&](double along) {
      return static_cast<double>(bad_.size() - 2) * along / std::max(line_.length(), 1e-9);
    };
    const auto first = static_cast<std::size_t>(std::floor(number(before.along.value())));
    const auto last = std::min(bad_.size() - 2, static_cast<std::size_t>(std::ceil(number(next.along.value()))));
    return bad_[last + 1] == bad_[first];
  }

  /// Where the cast from a place on the lane goes for a target: at it, or away from it.
  [[nodiscard]] XY aim(XY boat, const Target& target) const {
    if (!wish_.outward) return target.at;
    const Metres middle = (options_.cast_from + options_.cast_to) / 2;
    return boat + unit(boat - target.at) * (middle - kPast).value();
  }

  [[nodiscard]] std::optional<LaneCast> cast_from(const Along& line, const Target& target, double slack) const {
    const double along = line.nearest(target.at);
    const XY boat = line.at(along);
    const XY fished = aim(boat, target);
    const double reach = distance(boat, fished).value();
    const auto [low, high] = reach_of(options_);
    if (reach < low + slack || reach > high - slack) return std::nullopt;
    const XY landing = fished + unit(fished - boat) * kPast.value();
    if (!(bilinear(lake_.depth, landing) >= kLandingDepth) || !boats_.may_cast(boat, landing)) return std::nullopt;
    if (wish_.outward && !(bilinear(lake_.depth, fished) >= wish_.least_floor.value() &&
                           bilinear(lake_.depth, landing) >= wish_.least_floor.value())) {
      return std::nullopt;
    }
    return LaneCast{&target, Metres(along), Metres(reach) + kPast, Metres(0), Metres(0)};
  }

  [[nodiscard]] std::optional<Lane> finished(const std::vector<LaneCast>& run) const {
    if (run.size() < 2 || run.back().along - run.front().along < kShortestLane) return std::nullopt;
    const Line whole = line_.part(run.front().along.value(), run.back().along.value());
    for (const Line& way : {simplified(whole, kFewerPlaces), whole}) {
      if (auto lane = checked(way, run)) return lane;
    }
    return std::nullopt;
  }

  [[nodiscard]] std::optional<Lane> checked(const Line& way, const std::vector<LaneCast>& run) const {
    Lane lane;
    for (const XY place : way) {
      const XY at = lake_.projection.from_lonlat(as_printed(lake_.projection, place));
      if (lane.way.empty() || distance(lane.way.back(), at) > Metres(0.2)) lane.way.push_back(at);
    }
    if (lane.way.size() < 2 || length(lane.way) < kShortestLane || !is_simple(lane.way)) return std::nullopt;
    if (!boats_.is_clear(lane.way) || !measure_depths(lane)) return std::nullopt;
    const Along line(lane.way);
    int left = 0;
    for (const LaneCast& planned : run) {
      const auto cast = cast_from(line, *planned.target, 0);
      if (!cast || (!lane.casts.empty() && cast->along < lane.casts.back().along)) return std::nullopt;
      lane.casts.push_back(*cast);
      const XY boat = line.at(cast->along.value());
      const XY fished = aim(boat, *planned.target);
      lane.casts.back().room = boats_.room_for_lure(boat, fished);
      lane.casts.back().floor = boats_.floor_between(boat, fished);
      left += cross(line.heading(cast->along.value()), fished - boat) > 0 ? 1 : -1;
    }
    if (std::abs(left) != static_cast<int>(run.size())) return std::nullopt;
    lane.side = left > 0 ? Side::left : Side::right;
    return lane;
  }

  /// False where the boat cannot go.
  [[nodiscard]] bool measure_depths(Lane& lane) const {
    lane.depth = {Metres(HUGE_VAL), Metres(0)};
    for (std::size_t i = 1; i < lane.way.size(); ++i) {
      const XY from = lane.way[i - 1], to = lane.way[i];
      const int steps = static_cast<int>(std::ceil(distance(from, to).value() / kDepthStep));
      for (int step = 0; step <= steps; ++step) {
        const XY at = from + (to - from) * (static_cast<double>(step) / steps);
        const bool look = step % kDepthsALook == 0 || step == steps;
        if (look ? !fits(at) : !floats(at)) return false;
        const Metres depth(bilinear(lake_.depth, at));
        lane.depth = {std::min(lane.depth.first, depth), std::max(lane.depth.second, depth)};
      }
    }
    return true;
  }

  const Lake& lake_;
  const BoatFinder& boats_;
  const SpotOptions& options_;
  const LaneWish& wish_;
  const PreparedShape& edge_;
  Metres least_;
  Along line_;
  std::vector<int> bad_;  // looked-at places that do not fit, before each
};

}  // namespace

std::vector<Lane> lanes_past(std::span<const Target> stretch, const PassGround& ground, const LaneWish& wish) {
  const Line& whole = *stretch.front().edge;
  const Line edge(whole.begin() + static_cast<std::ptrdiff_t>(stretch.front().on_edge),
                  whole.begin() + static_cast<std::ptrdiff_t>(stretch.back().on_edge) + 1);
  const double side = deep_side(stretch, ground.lake, ground.options.cast_from);
  const double away = wish.outward ? kCloseBy.value() : offset_of(stretch, side, ground.options);
  const PreparedShape whole_edge{Geometry{lines_of(stretch.front().feature->geometry)}};
  std::vector<Lane> found;
  for (Line& line : beside(simplified(edge, kStraighter), Metres(side * away))) {
    const Along placed(line);
    if (placed.nearest(edge.front()) > placed.nearest(edge.back())) std::reverse(line.begin(), line.end());
    const LaneLayer layer(ground, wish, whole_edge, Metres(away) - kStraighter - kFewerPlaces * 2, Along(line));
    for (Lane& lane : layer.lanes(stretch)) found.push_back(std::move(lane));
  }
  return found;
}

Lane reversed(Lane lane) {
  const Metres whole = length(lane.way);
  std::reverse(lane.way.begin(), lane.way.end());
  std::reverse(lane.casts.begin(), lane.casts.end());
  for (LaneCast& cast : lane.casts) cast.along = whole - cast.along;
  lane.side = lane.side == Side::left ? Side::right : Side::left;
  return lane;
}

}  // namespace castplan
