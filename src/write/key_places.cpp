// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/key_places.hpp"

#include <algorithm>
#include <array>

#include "write/map_page.hpp"

namespace castplan::sheet {
namespace {

constexpr std::size_t kMostPlaces = 6;
constexpr std::size_t kMostFeatures = 5;
constexpr double kAsSure = 0.05;  // of confidence: as sure as the surest
constexpr Metres kOneBox(20);

struct Letter {
  Kind kind;
  std::string_view letter;
};
constexpr std::array kLetters{Letter{Kind::pool, "p"},    Letter{Kind::drop_off, "d"}, Letter{Kind::weed_line, "w"},
                              Letter{Kind::hump, "m"},    Letter{Kind::saddle, "a"},   Letter{Kind::flat, "f"},
                              Letter{Kind::channel, "c"}, Letter{Kind::point, "o"},    Letter{Kind::inside_turn, "n"},
                              Letter{Kind::narrows, "g"}, Letter{Kind::bay, "y"},      Letter{Kind::wood, "t"},
                              Letter{Kind::rock, "r"},    Letter{Kind::weeds, "b"},    Letter{Kind::dock, "k"},
                              Letter{Kind::inflow, "i"},  Letter{Kind::cover, "u"}};

// What the floor and the shore make, and mapped wood, rock and weeds.
constexpr std::array kLandmarks{Kind::pool, Kind::drop_off, Kind::weed_line, Kind::hump,        Kind::saddle,
                                Kind::flat, Kind::channel,  Kind::point,     Kind::inside_turn, Kind::narrows,
                                Kind::bay,  Kind::wood,     Kind::rock,      Kind::weeds};

KeyPlace key_place(const Plan& plan, std::size_t phase, const Spot& spot, std::string label) {
  KeyPlace out{std::move(label), phase, &spot, {}};
  for (const std::string& id : spot.feature_ids) {
    const auto found = std::find_if(plan.features.begin(), plan.features.end(),
                                    [&](const Feature& feature) { return feature.id == id; });
    if (found != plan.features.end() && out.features.size() < kMostFeatures) out.features.push_back(&*found);
  }
  return out;
}

// Of the surest of a kind the one that lies furthest from what is shown already, so that letters do not crowd.
const Feature* landmark(const Plan& plan, Kind kind, const std::vector<Lettered>& shown) {
  double surest = 0.0;
  for (const Feature& feature : plan.features) {
    if (feature.kind == kind) surest = std::max(surest, feature.confidence);
  }
  const Feature* best = nullptr;
  double furthest = -1.0;
  for (const Feature& feature : plan.features) {
    if (feature.kind != kind || feature.confidence < surest - kAsSure) continue;
    double nearest = 1e9;
    for (const Lettered& one : shown)
      nearest = std::min(nearest, distance(one.feature->anchor, feature.anchor).value());
    if (nearest <= furthest) continue;
    best = &feature;
    furthest = nearest;
  }
  return best;
}

std::vector<Lettered> landmarks(const Plan& plan) {
  std::vector<Lettered> out;
  for (const Kind kind : kLandmarks) {
    const Feature* found = landmark(plan, kind, out);
    if (found != nullptr) out.push_back({found, std::string(key_letter(kind)), found->anchor});
  }
  return out;
}

}  // namespace

std::string_view key_letter(Kind kind) {
  const auto row = std::find_if(kLetters.begin(), kLetters.end(), [&](const Letter& one) { return one.kind == kind; });
  return row == kLetters.end() ? "x" : row->letter;
}

std::vector<KeyPlace> key_places(const Plan& plan) {
  std::vector<KeyPlace> out;
  const bool year = plan.phases.size() > 1;
  for (std::size_t phase = 0; phase < plan.phases.size(); ++phase) {
    for (const Spot& spot :
         shown_spots(plan, phase)
             .first(std::min<std::size_t>(shown_spots(plan, phase).size(), year ? 1 : kMostPlaces))) {
      out.push_back(key_place(plan, phase, spot, year ? phase_letter(plan, phase) : spot_label(plan, phase, spot)));
    }
  }
  return out;
}

std::vector<Mark> key_marks(const Plan& plan, const std::vector<KeyPlace>& places) {
  std::vector<Mark> marks;
  for (const KeyPlace& place : places) {
    const auto same = std::find_if(marks.begin(), marks.end(), [&](const Mark& mark) {
      return plan.phases.size() > 1 && distance(mark.at, place.spot->boat) <= kOneBox;
    });
    if (same == marks.end()) {
      marks.push_back({place.label, place.spot->boat});
    } else {
      same->label += " " + place.label;
    }
  }
  return marks;
}

std::vector<Lettered> key_features(const Plan& plan, const std::vector<KeyPlace>& places) {
  if (places.empty()) return landmarks(plan);
  std::vector<Lettered> out;
  for (const KeyPlace& place : places) {
    for (const Feature* feature : place.features) {
      const bool drawn =
          std::any_of(out.begin(), out.end(), [&](const Lettered& one) { return one.feature == feature; });
      if (!drawn) out.push_back({feature, std::string(key_letter(feature->kind)), place.spot->aim});
    }
  }
  return out;
}

}  // namespace castplan::sheet
