// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/spots/rank.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <span>

#include "castplan/features/detect.hpp"
#include "castplan/geo/geodesic.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "castplan/grid/sample.hpp"
#include "castplan/grid/sweep.hpp"
#include "spots/boat.hpp"
#include "spots/cautions.hpp"
#include "spots/order_words.hpp"
#include "spots/passes.hpp"
#include "spots/printed.hpp"
#include "spots/rank_interval.hpp"
#include "spots/shelter.hpp"
#include "spots/spread.hpp"
#include "spots/tackle.hpp"

namespace castplan {

namespace {

constexpr int kMostOnOneEdge = 2;
constexpr int kJudgedAtOnce = 64;  // by one thread
constexpr Metres kAnchored(4);     // deepest water that a small boat anchors in
constexpr Metres kStrikeBefore(4), kStrikeAfter(3);

bool better(const Target& a, const Target& b) {
  if (a.score != b.score) return a.score > b.score;
  // decimetres: noise far below a cell must not decide
  const auto place = [](XY at) { return std::pair(-std::llround(at.y * 10), std::llround(at.x * 10)); };
  return place(a.at) < place(b.at);
}

// Where the wind would set a boat without its engine onto something, an anchor holds better than a motor. Common
// practice, no source.
std::string hold_for(const BoatPlace& place, bool motor) {
  if (place.boat_depth <= kAnchored && (place.adrift || !motor)) return "anchor";
  return motor ? "motor" : "drift";
}

Spot make_spot(const Target& target, const BoatPlace& place, const BoatFinder& boats, const Lake& lake,
               const std::vector<Feature>& features, const Surroundings& surroundings, const Phase& phase,
               const SpotOptions& options) {
  Spot spot;
  spot.id = id_at("spot", lake.projection.to_lonlat(place.boat));
  spot.phase = phase.name;
  spot.score = target.score;
  spot.boat = place.boat;
  spot.boat_depth = place.boat_depth;
  spot.hold = hold_for(place, options.motor);
  spot.aim = target.at;
  spot.target = place.landing;
  spot.bearing = geodesic(as_printed(lake.projection, place.boat), as_printed(lake.projection, place.landing)).bearing;
  spot.approach = spot.bearing;  // in from behind the boat's place, so that the water fished is not run over
  spot.cast = place.cast;
  spot.strike = {std::max(Metres(1), place.to_target - kStrikeBefore),
                 std::min(place.cast, place.to_target + kStrikeAfter)};
  spot.target_depth = target.depth;
  std::set<Kind> kinds{target.feature->kind};
  spot.feature_ids.push_back(target.feature->id);
  for (const Neighbour& each : surroundings.near(target.at, kWithinCast)) {
    kinds.insert(each.feature->kind);
    if (each.feature != target.feature) spot.feature_ids.push_back(each.feature->id);
  }
  spot.kinds.push_back(target.feature->kind);
  kinds.erase(target.feature->kind);
  spot.kinds.insert(spot.kinds.end(), kinds.begin(), kinds.end());
  spot.why = target.why;
  spot.not_assessed = target.not_assessed;
  spot.presentations = presentations(phase, std::min(target.depth, boats.room_for_lure(place.boat, target.at)),
                                     std::min(target.depth, boats.floor_between(place.boat, target.at)));
  spot.casts = casts_for(spot.kinds.size());
  spot.minutes = minutes_for(spot.casts, place.cast, is_cold(phase));
  spot.cautions = cautions_at(lake, features, place, options);
  if (place.adrift && options.wind && spot.hold != "anchor") {
    spot.cautions.push_back(grounding_words(*place.adrift, options));
  }
  spot.reason_words = reason_words(spot, options.units);
  return spot;
}

/// A target with its place for the boat.
struct Chosen {
  Target aim;
  BoatPlace place;
};

bool too_close(XY boat, const std::vector<Chosen>& chosen, Metres spacing) {
  return std::any_of(chosen.begin(), chosen.end(),
                     [&](const Chosen& each) { return distance(each.place.boat, boat) < spacing; });
}

std::vector<Target> judged(const Lake& lake, const Surroundings& surroundings, const Phase& phase,
                           const SpotOptions& options) {
  std::vector<Target> all = targets(lake, surroundings, phase, options);
  const auto count = static_cast<int>(all.size());
  each((count + kJudgedAtOnce - 1) / kJudgedAtOnce, [&](int part) {
    for (int i = part * kJudgedAtOnce; i < std::min(count, (part + 1) * kJudgedAtOnce); ++i) {
      judge(all[static_cast<std::size_t>(i)], lake, surroundings, phase);
    }
  });
  return all;
}

/// Best first, without those that suit in no way.
std::vector<const Target*> in_order(const std::vector<Target>& all) {
  std::vector<const Target*> order;
  for (const Target& target : all) {
    if (target.score > 0) order.push_back(&target);
  }
  std::sort(order.begin(), order.end(), [](const Target* a, const Target* b) { return better(*a, *b); });
  return order;
}

/// Chooses targets that a boat can be placed for, apart from each other and not too many on one edge.
class Choice {
 public:
  Choice(const Lake& lake, const BoatFinder& boats, const Weather& weather, const Surroundings& surroundings,
         const Phase& phase, const SpotOptions& options)
      : lake_(lake),
        boats_(boats),
        weather_(weather),
        surroundings_(surroundings),
        phase_(phase),
        options_(options),
        spacing_(spot_spacing(lake.area)) {}

  bool take(const Target& target) {
    if (on_edge_[target.feature] >= kMostOnOneEdge) return false;
    // the boat lies within a cast of the target, so a target this near a taken place cannot help
    if (too_close(target.at, chosen_, spacing_ - options_.cast_to) || weather_.too_rough_at(target.at)) return false;
    Target aim = settled(target, lake_, surroundings_, phase_, options_);
    auto place = boats_.best(aim);
    if (!place) place = boats_.best(aim = target);
    if (!place || too_close(place->boat, chosen_, spacing_) || weather_.too_rough_at(place->boat)) return false;
    chosen_.push_back({std::move(aim), *place});
    ++on_edge_[target.feature];
    return true;
  }
  [[nodiscard]] int size() const { return static_cast<int>(chosen_.size()); }

  /// In the order of their scores, which settling changed a little.
  std::vector<Chosen> in_order() && {
    std::stable_sort(chosen_.begin(), chosen_.end(),
                     [](const Chosen& a, const Chosen& b) { return a.aim.score > b.aim.score; });
    return std::move(chosen_);
  }

 private:
  const Lake& lake_;
  const BoatFinder& boats_;
  const Weather& weather_;
  const Surroundings& surroundings_;
  const Phase& phase_;
  const SpotOptions& options_;
  Metres spacing_;
  std::map<const Feature*, int> on_edge_;
  std::vector<Chosen> chosen_;
};

/// From the best target down, the first ten spread over the lake and over kinds where there is a choice; with those
/// that come next, which their ranks are held against.
std::vector<Chosen> chosen_of(const std::vector<const Target*>& all, Choice choice, Spread spread, int asked) {
  std::vector<const Target*> passed_over;
  auto next = all.begin();
  for (; next != all.end() && choice.size() < kSpread; ++next) {
    if (spread.has_enough_like(**next)) {
      passed_over.push_back(*next);
    } else if (choice.take(**next)) {
      spread.add(**next);
    }
  }
  auto passed = passed_over.begin();
  const auto fill_up = [&](int number) {
    for (; passed != passed_over.end() && choice.size() < number; ++passed) choice.take(**passed);
  };
  fill_up(kSpread);
  for (; next != all.end() && choice.size() < std::max(asked, kGathered); ++next) choice.take(**next);
  fill_up(asked);
  return std::move(choice).in_order();
}

std::vector<RankInterval> intervals_of(const std::vector<Chosen>& chosen, const Lake& lake,
                                       const Surroundings& surroundings, const Phase& phase,
                                       const SpotOptions& options) {
  std::vector<TargetDoubt> doubts;
  for (const Chosen& each : chosen) doubts.push_back(doubt_of(each.aim, lake, surroundings, phase));
  RankDraws draws;
  draws.seed = options.seed;
  draws.weed_error = options.weed_error;
  return rank_intervals(doubts, draws);
}

Surroundings::WavesAt waves_of(const Weather& weather) {
  return [&weather](XY place) { return weather.wave_height(place); };
}

double worth_at(const Spot& spot, const Lake& lake, const Surroundings& surroundings, const Phase& phase) {
  const std::vector<Neighbour> near = surroundings.near(spot.aim, kWithinCast);
  const float depth = bilinear(lake.depth, spot.aim);
  if (near.empty() || !(depth > 0)) return 0;
  const auto same = std::find_if(near.begin(), near.end(),
                                 [&](const Neighbour& each) { return each.feature->kind == spot.kinds.front(); });
  const Neighbour& fished = same != near.end() ? *same : near.front();
  Target target{fished.feature, spot.aim, Metres(std::round(static_cast<double>(depth) * 100) / 100), {}, {}, 0, {}, 0};
  judge(target, lake, surroundings, phase);
  return target.score;
}

}  // namespace

Metres spot_spacing(SquareMetres lake_area) { return lake_area < SquareMetres(40e4) ? Metres(75) : Metres(150); }

PhaseSpots rank_spots(const Lake& lake, const std::vector<Feature>& features, const Phase& phase,
                      const SpotOptions& options) {
  PhaseSpots result{&phase, {}, {}};
  if (!phase.fishable) {
    result.why_none = phase.stop_reason;
    return result;
  }
  if (result.why_none = no_boat_out(options); !result.why_none.empty()) return result;
  const Weather weather(lake, options);
  const Surroundings surroundings(lake, features, options.reach, waves_of(weather));
  const std::vector<Target> all = judged(lake, surroundings, phase, options);
  const std::vector<const Target*> order = in_order(all);
  const BoatFinder boats(lake, features, surroundings, options);
  const std::vector<Chosen> chosen =
      chosen_of(order, Choice(lake, boats, weather, surroundings, phase, options), Spread(lake), options.most);
  const std::vector<RankInterval> intervals = intervals_of(chosen, lake, surroundings, phase, options);
  for (std::size_t i = 0; i < std::min(chosen.size(), static_cast<std::size_t>(options.most)); ++i) {
    Spot spot = make_spot(chosen[i].aim, chosen[i].place, boats, lake, features, surroundings, phase, options);
    weather.add_caution(spot.boat, options.units, spot.cautions);
    spot.rank = static_cast<int>(i) + 1;
    spot.rank_low = intervals[i].low;
    spot.rank_high = intervals[i].high;
    result.spots.push_back(std::move(spot));
  }
  result.order = order_notes(std::span(intervals).first(result.spots.size()), intervals.size());
  result.shelter = weather.notes(lake, result.spots, options);
  result.passes = find_passes(all, {lake, features, surroundings, phase, options, boats, weather});
  if (result.spots.empty()) {
    result.why_none =
        order.empty()
            ? fmt::format("Nothing on this lake that suits the phase lies within a lure's reach, {}.",
                          length_text(options.reach, options.units))
            : "No edge on this lake can be cast at from water that floats the boat and lets it lie, with the options "
              "and the wind given.";
  }
  return result;
}

std::vector<double> worth_of(std::span<const Spot> spots, const Lake& lake, const std::vector<Feature>& features,
                             const Phase& phase, const SpotOptions& options) {
  const Weather weather(lake, options);
  const Surroundings surroundings(lake, features, options.reach, waves_of(weather));
  std::vector<double> worth;
  for (const Spot& spot : spots) worth.push_back(worth_at(spot, lake, surroundings, phase));
  return worth;
}

namespace {

/// shallow(each): what orders those with the same id.
template <class Place, class Depth>
void number_equal(std::vector<Place*> places, const Depth& shallow) {
  std::map<std::string, std::vector<Place*>> same;
  for (Place* place : places) same[place->id].push_back(place);
  for (auto& [id, group] : same) {
    std::stable_sort(group.begin(), group.end(),
                     [&](const Place* a, const Place* b) { return shallow(*a) < shallow(*b); });
    for (std::size_t i = 1; i < group.size(); ++i) group[i]->id = fmt::format("{}-{}", id, i + 1);
  }
}

}  // namespace

void number_equal_ids(std::vector<PhaseSpots>& phases) {
  std::vector<Spot*> spots;
  std::vector<Pass*> passes;
  for (PhaseSpots& phase : phases) {
    for (Spot& spot : phase.spots) spots.push_back(&spot);
    for (Pass& pass : phase.passes) passes.push_back(&pass);
  }
  number_equal(std::move(spots), [](const Spot& spot) { return spot.boat_depth; });
  number_equal(std::move(passes), [](const Pass& pass) { return pass.boat_depth.first; });
}

}  // namespace castplan
