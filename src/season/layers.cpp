// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/layers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

using std::chrono::days;
using std::chrono::sys_days;
using Levels = std::span<const ProfileReading>;

constexpr days kProfileHolds{14};  // design choice
constexpr days kReadingHolds{5};   // as a reading of a series does
constexpr Metres kSurfaceReading{1};
// What lies below the thermocline of temperate lakes where nothing is known: from 4 C to the formula for mild winters.
constexpr Celsius kColdestBelow{4.0};
constexpr Celsius kWarmestBelow{12.0};
constexpr CelsiusStep kBottomSpread{2.0};  // design choice

Levels newest(Levels profile, Date date, days holds) {
  Levels found;
  for (std::size_t from = 0; from < profile.size();) {
    std::size_t to = from + 1;
    while (to < profile.size() && profile[to].date == profile[from].date) ++to;
    const auto age = sys_days(date) - sys_days(parse_date(profile[from].date));
    if (age >= days(0) && age <= holds) found = profile.subspan(from, to - from);
    from = to;
  }
  return found;
}

std::vector<TemperatureAtDepth> temperatures(Levels levels) {
  std::vector<TemperatureAtDepth> out;
  for (const ProfileReading& level : levels) out.push_back({level.depth, level.temperature});
  return out;
}

// Half the distance of the samples on either side: the depth is known no better.
ThermoclineDepth between_samples(Metres depth, Levels levels) {
  ThermoclineDepth out{depth, depth, depth};
  for (std::size_t i = 0; i + 1 < levels.size(); ++i) {
    if (depth < levels[i].depth || depth > levels[i + 1].depth) continue;
    out.low = std::max(levels.front().depth, depth - (levels[i + 1].depth - levels[i].depth) / 2);
    out.high = std::min(levels.back().depth, depth + (levels[i + 1].depth - levels[i].depth) / 2);
    break;
  }
  return out;
}

void by_profile(const LayerQuestion& question, Levels levels, LayerAnswer& answer) {
  answer.source = "profile";
  answer.profile_date = levels.front().date;
  answer.without_oxygen = depths_without_oxygen(levels, question.least_oxygen);
  const auto column = temperatures(levels);
  const auto depth = thermocline_in(column);
  if (!depth) {
    answer.mixing = Mixing::mixed;
  } else if (question.areas.size() > 1) {
    const auto stability = schmidt_stability(question.areas, column);
    answer.mixing = mixing_of(lake_number(question.areas, stability, *depth, kUsualWind));
    // there is a step, however weak
    if (answer.mixing == Mixing::mixed) answer.mixing = Mixing::turning_over;
  }
  if (depth && (!answer.mixing || answer.mixing == Mixing::layered)) {
    answer.thermocline = between_samples(*depth, levels);
    answer.text =
        fmt::format("Thermocline at {}, measured on {}.", length_text(*depth, question.units), answer.profile_date);
    return;
  }
  answer.text = fmt::format("No thermocline in the profile of {}: the water is {}.", answer.profile_date,
                            name_of(answer.mixing.value_or(Mixing::mixed)));
}

// The sentence for a prediction and the state of the lake.
std::string predicted_text(const LayerQuestion& question, const ThermoclineDepth& depth, bool whole_year) {
  return fmt::format(
      "Thermocline near {} ({} to {}), predicted from the size of the lake{}; a profile on the water is "
      "better.",
      length_text(depth.expected, question.units), length_text(depth.low, question.units),
      length_text(depth.high, question.units), whole_year ? " for midsummer" : "");
}

void by_prediction(const LayerQuestion& question, LayerAnswer& answer) {
  if (question.areas.size() < 2) return;
  const auto depth = predicted_thermocline(question.areas.front().area, question.areas.back().depth);
  answer.source = "predicted";
  if (!depth) {
    answer.mixing = Mixing::mixed;
    answer.text = "No thermocline expected: by its size and depth the lake mixes to the bottom in summer too.";
    return;
  }
  if (!question.surface) {
    answer.thermocline = depth;
    answer.text = predicted_text(question, *depth, true);
    return;
  }
  Celsius coldest = kColdestBelow, warmest = kWarmestBelow;
  if (question.coldest_month) {
    const Celsius below = bottom_temperature(*question.coldest_month);
    coldest = std::max(kColdestBelow, below + (-kBottomSpread));
    warmest = below + kBottomSpread;
  }
  answer.mixing = mixing_without_profile(question.areas, depth->expected, *question.surface, coldest, warmest);
  if (answer.mixing == Mixing::layered) {
    answer.thermocline = depth;
    answer.text = predicted_text(question, *depth, false);
  } else if (answer.mixing == Mixing::turning_over) {
    answer.text =
        "The lake may be turning over, or only beginning to form layers: no thermocline is drawn. Measure a profile.";
  } else {
    answer.text = "No thermocline: at this temperature a breeze mixes the lake to the bottom.";
  }
}

}  // namespace

LayerAnswer decide_layers(const LayerQuestion& question) {
  LayerAnswer answer;
  if (question.river) {
    if (!question.profile.empty()) answer.notes.emplace_back("A river: the profile is not used.");
    return answer;
  }
  Levels levels;
  if (!question.profile.empty() && !question.date) {
    answer.notes.emplace_back("The temperature profile is not used: it needs a date (--date).");
  } else if (!question.profile.empty()) {
    levels = newest(question.profile, *question.date, kProfileHolds);
    if (levels.empty()) {
      answer.notes.push_back(
          fmt::format("The temperature profile is not used: none was measured in the {} days up to {}.",
                      kProfileHolds.count(), date_text(*question.date)));
    }
  }
  if (levels.size() == 1 || levels.size() == 2) {
    answer.notes.push_back(fmt::format("The temperature profile of {} has only {} depths: three are needed.",
                                       levels.front().date, levels.size()));
    levels = {};
  }
  levels.empty() ? by_prediction(question, answer) : by_profile(question, levels, answer);
  return answer;
}

std::vector<std::pair<Metres, Metres>> depths_without_oxygen(Levels levels, double least) {
  std::vector<std::pair<double, double>> known;  // depth, oxygen
  for (const ProfileReading& level : levels) {
    if (level.oxygen_mg_l) known.emplace_back(level.depth.value(), *level.oxygen_mg_l);
  }
  std::vector<std::pair<Metres, Metres>> out;
  bool lacking = false;
  for (std::size_t i = 0; i < known.size(); ++i) {
    const bool lacks = known[i].second < least;
    if (lacks == lacking) continue;
    // the first level stands for all above it
    double edge = 0;
    if (i > 0) {
      const auto& [above, oxygen_above] = known[i - 1];
      edge = above + (known[i].first - above) * (oxygen_above - least) / (oxygen_above - known[i].second);
    }
    if (lacks) {
      out.emplace_back(edge, std::numeric_limits<double>::infinity());
    } else {
      out.back().second = Metres(edge);
    }
    lacking = lacks;
  }
  return out;
}

Phase by_thermocline(const Phase& phase, const std::optional<ThermoclineDepth>& thermocline) {
  Phase out = phase;
  if (!thermocline || phase.depth_below_thermocline.points.empty()) return out;
  out.depth = phase.depth_below_thermocline;
  for (auto& point : out.depth.points) point.first += thermocline->expected.value();
  out.depth.source.text += fmt::format("; thermocline at {:.1f} m", thermocline->expected.value());
  return out;
}

Curve without_depths(Curve depth, std::span<const std::pair<Metres, Metres>> depths, const std::string& why) {
  constexpr double kStep = 0.005;  // depths are rounded to the centimetre
  if (depths.empty()) return depth;
  std::vector<double> at;
  for (const auto& point : depth.points) at.push_back(point.first);
  for (const auto& [from, to] : depths) {
    for (const double edge : {from.value() - kStep, from.value(), to.value(), to.value() + kStep}) {
      if (std::isfinite(edge)) at.push_back(edge);
    }
  }
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  const auto lacks = [&](double x) {
    return std::any_of(depths.begin(), depths.end(),
                       [x](const auto& one) { return x >= one.first.value() && x <= one.second.value(); });
  };
  Curve out;
  out.source = depth.source;
  out.source.text += "; " + why;
  for (const double x : at) out.points.emplace_back(x, lacks(x) ? 0.0 : depth(x));
  return out;
}

std::optional<DatedTemperature> surface_of_profile(Levels profile, Date date) {
  const Levels levels = newest(profile, date, kReadingHolds);
  if (levels.empty() || levels.front().depth > kSurfaceReading) return std::nullopt;
  return DatedTemperature{levels.front().date, levels.front().temperature};
}

}  // namespace castplan
