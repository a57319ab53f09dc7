// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/to_check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "castplan/spots/compare.hpp"
#include "write/carried.hpp"
#include "write/map_page.hpp"
#include "write/plain_text.hpp"

namespace castplan {
namespace {

constexpr std::size_t kMostSpots = 6;
constexpr std::size_t kMostWeeds = 3;
constexpr std::size_t kMostFeatures = 4;
constexpr std::size_t kMostHazards = 3;
constexpr std::size_t kMostLaunches = 3;
constexpr double kLowConfidence = 0.7;  // below it a feature may as well not be there; design choice
constexpr double kThin = 1.5;           // times the lake's own error: where its survey is thin; design choice
constexpr std::size_t kNameBytes = 60;

/// A spot as the page names it, with what it leans on.
struct Named {
  std::string label;
  const Spot* spot;
};

std::vector<Named> named_spots(const Plan& plan) {
  std::vector<Named> out;
  for (std::size_t phase = 0; phase < plan.phases.size(); ++phase) {
    for (const Spot& spot : shown_spots(plan, phase)) out.push_back({spot_label(plan, phase, spot), &spot});
  }
  return out;
}

std::string short_of(std::string_view name) { return shortened(one_line(name), kNameBytes); }

/// A feature and the spots that lean on it.
struct Leaning {
  const Feature* feature;
  std::vector<const Named*> spots;

  [[nodiscard]] std::string labels() const {
    std::vector<std::string> all;
    for (const Named* one : spots) {
      if (all.size() < 8) all.push_back(one->label);
    }
    return joined(all, ", ") + (spots.size() > 8 ? fmt::format(" and {} more", spots.size() - 8) : "");
  }
  [[nodiscard]] std::string words() const {
    return spots.empty() ? "" : fmt::format("{} {}", spots.size() == 1 ? "spot" : "spots", labels());
  }
  // where it matters: the vertex next to the best spot
  [[nodiscard]] XY place() const {
    if (spots.empty()) return feature->anchor;
    const XY aim = spots.front()->spot->aim;
    XY best = feature->anchor;
    for (const XY at : vertices(feature->geometry)) {
      if (distance(at, aim) < distance(best, aim)) best = at;
    }
    return best;
  }
};

// Features that satisfy a test, those that more spots lean on first.
template <class Test>
std::vector<Leaning> leaning(const Plan& plan, const std::vector<Named>& spots, Test test) {
  std::vector<Leaning> out;
  for (const Feature& feature : plan.features) {
    if (!test(feature)) continue;
    Leaning one{&feature, {}};
    for (const Named& named : spots) {
      const auto& ids = named.spot->feature_ids;
      if (std::find(ids.begin(), ids.end(), feature.id) != ids.end()) one.spots.push_back(&named);
    }
    out.push_back(std::move(one));
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Leaning& a, const Leaning& b) { return a.spots.size() > b.spots.size(); });
  return out;
}

struct List {
  const Plan& plan;
  Units units;
  std::vector<Named> spots;
  std::vector<Check> checks{};

  [[nodiscard]] std::string depth(Metres value) const {
    return std::isfinite(value.value()) ? length_text(value, units) : "an unknown depth";
  }
  [[nodiscard]] XY deepest() const { return plan.lake->bodies.empty() ? XY{} : plan.lake->bodies.front().deepest; }
  void temperature();
  void depths_at_spots();
  void weeds();
  void doubtful();
  void layers();
  void clarity();
  void hazards();
  void launches();
};

void List::temperature() {
  const bool stop = plan.season.advisory.level == AdvisoryLevel::stop;
  if (plan.lake->bodies.empty() || (plan.season.water_temp && !stop)) return;
  checks.push_back({"water temperature", deepest(), "The main basin",
                    "the temperature of the open water, and a day or more later again: rising or falling",
                    "thermometer on a line, 0.5 m (20 in) down, in the morning, away from ramps and bays",
                    stop ? "whether there is fishing at all" : "which phase holds, and with it every spot", "", ""});
}

// One place may be asked for in several phases: it is sounded once.
void List::depths_at_spots() {
  std::vector<std::pair<const Spot*, std::string>> found;
  for (std::size_t phase = 0; phase < plan.phases.size(); ++phase) {
    const std::span<const Spot> shown = shown_spots(plan, phase);
    for (const std::size_t rank : plan.phases[phase].order.sound) {
      const auto spot =
          std::find_if(shown.begin(), shown.end(), [&](const Spot& one) { return one.rank == static_cast<int>(rank); });
      if (spot == shown.end()) continue;
      const auto same = std::find_if(found.begin(), found.end(), [&](const auto& one) {
        return distance(one.first->boat, spot->boat) <= kSamePlace;
      });
      const std::string label = spot_label(plan, phase, *spot);
      if (same == found.end()) {
        found.emplace_back(&*spot, label);
      } else {
        same->second += ", " + label;
      }
    }
  }
  found.resize(std::min(found.size(), kMostSpots));
  for (const auto& [spot, labels] : found) {
    const PrintedCast cast = printed_cast(plan, *spot);
    checks.push_back({"depth at a spot", spot->boat,
                      (labels.find(',') == std::string::npos ? "Spot " : "Spots ") + labels,
                      fmt::format("the depth: {} under the boat by the map, {} where it is fished, {} to the {}",
                                  depth(spot->boat_depth), depth(spot->target_depth),
                                  distance_text(Metres(cast.cast_m), units), compass_words(Degrees(cast.bearing_deg))),
                      "sounder, from the boat's place along the cast and back",
                      fmt::format("the rank of {}, now between {} and {} in nine draws of ten, and with it the order",
                                  labels.substr(0, labels.find(',')), spot->rank_low, spot->rank_high),
                      labels, spot->id});
  }
}

void List::weeds() {
  const auto edges = leaning(plan, spots, [](const Feature& feature) {
    const auto* weed = std::get_if<WeedLine>(&feature.details);
    return weed != nullptr && weed->source == WeedSource::predicted && weed->edge == WeedEdge::outside;
  });
  for (std::size_t i = 0; i < std::min(edges.size(), kMostWeeds); ++i) {
    const auto& weed = std::get<WeedLine>(edges[i].feature->details);
    const std::string band = weed.depth_low && weed.depth_high && *weed.depth_low < *weed.depth_high
                                 ? fmt::format(", could be {} to {}", depth(*weed.depth_low), depth(*weed.depth_high))
                                 : "";
    checks.push_back(
        {"predicted weed edge", edges[i].place(), short_of(edges[i].feature->name),
         fmt::format("where the plants end: {} by the formula{}, and which they are", depth(weed.depth), band),
         "sounder across the edge, a rake on either side of it, by eye in clear water",
         "every spot at a predicted edge" + (edges[i].spots.empty() ? "" : ", " + edges[i].words() + " first") +
             ": the depth found goes into the lake file as weed_depth",
         edges[i].labels(), edges[i].feature->id});
  }
}

void List::doubtful() {
  auto found = leaning(plan, spots, [](const Feature& feature) {
    const bool weed = feature.kind == Kind::weed_line;
    return !weed && feature.kind != Kind::hazard && feature.confidence < kLowConfidence;
  });
  std::erase_if(found, [](const Leaning& one) { return one.spots.empty(); });
  for (std::size_t i = 0; i < std::min(found.size(), kMostFeatures); ++i) {
    const Feature& feature = *found[i].feature;
    checks.push_back(
        {"doubtful feature", found[i].place(), short_of(feature.name),
         fmt::format("whether the {} is there, about {} deep: its confidence is {:.2f}", row_of(feature.kind).label,
                     depth(Metres(typical_depth_m(feature))), feature.confidence),
         "sounder, two lines across it at a right angle",
         found[i].words() + (found[i].spots.size() == 1 ? " leans on it" : " lean on it"), found[i].labels(),
         feature.id});
  }
}

void List::layers() {
  if (!plan.layers.thermocline || plan.layers.source != "predicted" || plan.lake->bodies.empty()) return;
  checks.push_back({"predicted thermocline", deepest(), "The deepest place",
                    fmt::format("the temperature at each {} down: it turns cold at about {} by the formula",
                                units == Units::metric ? "metre" : "3 ft", depth(plan.layers.thermocline->expected)),
                    "thermometer on a marked line, in summer, where the sounder shows the deepest water",
                    "how deep fish hold in warm water: the readings go into the lake file as a profile", "", ""});
}

void List::clarity() {
  if (plan.secchi || !plan.weed_source.empty() || plan.lake->bodies.empty()) return;
  checks.push_back({"clarity not known", deepest(), "The main basin", "how far down a white disc can be seen",
                    "Secchi disc, on the shaded side of the boat, near noon",
                    "whether weed edges are predicted, and where: the depth goes into the lake file as secchi", "",
                    ""});
}

void List::hazards() {
  const Lake& lake = *plan.lake;
  std::vector<std::pair<double, const Feature*>> found;
  for (const Feature& feature : plan.features) {
    const auto* shoal = std::get_if<Structure>(&feature.details);
    if (feature.kind != Kind::hazard || shoal == nullptr) continue;
    const bool thin = shoal->source_file.empty() ? feature.confidence < kLowConfidence || !lake.depth_error_known ||
                                                       error_at(lake, feature.anchor) > lake.depth_error * kThin
                                                 : !shoal->depth;
    if (!thin) continue;
    double nearest = 1e9;
    for (const Named& one : spots) nearest = std::min(nearest, distance(one.spot->boat, feature.anchor).value());
    for (const Feature& other : plan.features) {
      if (other.kind == Kind::launch) nearest = std::min(nearest, distance(other.anchor, feature.anchor).value());
    }
    found.emplace_back(nearest, &feature);
  }
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  found.resize(std::min(found.size(), kMostHazards));
  for (const auto& [away, feature] : found) {
    const auto& shoal = std::get<Structure>(feature->details);
    const std::string by = shoal.source_file.empty()
                               ? fmt::format("{} by the survey, confidence {:.2f}",
                                             shoal.depth ? depth(*shoal.depth) : "depth not known", feature->confidence)
                               : "mapped, its depth not known";
    checks.push_back({"thinly surveyed shoal", feature->anchor, short_of(feature->name),
                      fmt::format("how shallow it is and how far it reaches: {}", by),
                      "by eye and sounder, dead slow on a calm day, engine tilted; a pole",
                      "where no boat is put, and what stands on the map as a danger", "", feature->id});
  }
}

// Depths within 30 m of a place, as far as the survey has them.
bool has_depth_near(const Lake& lake, XY at) {
  for (const double away : {10.0, 20.0, 30.0}) {
    for (int i = 0; i < 16; ++i) {
      const double turn = i * 3.14159265358979323846 / 8.0;
      if (depth_at(lake, {at.x + away * std::cos(turn), at.y + away * std::sin(turn)}) > 0.0F) return true;
    }
  }
  return false;
}

void List::launches() {
  std::size_t count = 0;
  for (const Feature& feature : plan.features) {
    const auto* launch = std::get_if<Launch>(&feature.details);
    if (launch == nullptr || count >= kMostLaunches) continue;
    const bool surveyed = has_depth_near(*plan.lake, feature.anchor);
    if (launch->usable_above && surveyed) continue;
    ++count;
    std::string look = launch->usable_above ? "" : "from which level it serves";
    if (!surveyed) look += std::string(look.empty() ? "" : ", and ") + "the depth off the ramp, which the survey lacks";
    const std::string name = short_of(feature.name);
    checks.push_back({"launch", feature.anchor, name.empty() ? "Launch" : name, look,
                      "by eye at today's level, a pole from the end of the ramp",
                      "whether a boat gets in there, and where the day's rows begin", "", feature.id});
  }
}

}  // namespace

std::vector<Check> to_check(const Plan& plan, Units units) {
  List list{plan, units, named_spots(plan)};
  list.temperature();
  list.depths_at_spots();
  list.weeds();
  list.doubtful();
  list.layers();
  list.clarity();
  list.launches();
  list.hazards();
  return std::move(list.checks);
}

}  // namespace castplan
