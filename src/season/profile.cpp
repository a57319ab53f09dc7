// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/season/profile.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "castplan_species.hpp"
#include "season/reach.hpp"

namespace castplan {
namespace {

std::string_view stem(std::string_view file) { return file.substr(0, file.rfind('.')); }

std::vector<Profile> read_all() {
  std::vector<Profile> profiles;
  for (const auto& file : castplan_species::files()) {
    profiles.push_back(read_profile(file.text, std::string(file.name)));
    if (profiles.back().name != stem(file.name)) {
      throw InputError(fmt::format("{}: name = \"{}\"; expected \"{}\", as the file is called", file.name,
                                   profiles.back().name, stem(file.name)));
    }
  }
  return profiles;
}

}  // namespace

double Curve::operator()(double x) const {
  if (points.empty()) return 1.0;
  if (std::isnan(x)) return x;
  if (x <= points.front().first) return points.front().second;
  const auto after = std::find_if(points.begin(), points.end(), [x](const auto& point) { return point.first >= x; });
  if (after == points.end()) return points.back().second;
  const auto before = after - 1;
  const double share = (x - before->first) / (after->first - before->first);
  return before->second + share * (after->second - before->second);
}

std::string_view name_of(LureClass lure) {
  switch (lure) {
    case LureClass::inline_spinner:
      return "in-line spinner";
    case LureClass::crankbait:
      return "crankbait";
    case LureClass::soft_plastic:
      return "soft plastic";
    case LureClass::jerkbait:
      return "jerkbait";
    case LureClass::topwater:
      return "topwater";
  }
  return {};
}

std::string_view name_of(Factor factor) {
  switch (factor) {
    case Factor::depth:
      return "depth";
    case Factor::edge:
      return "edge";
    case Factor::cover:
      return "cover";
    case Factor::deep_water:
      return "deep_water";
    case Factor::meeting_edges:
      return "meeting_edges";
    case Factor::light:
      return "light";
    case Factor::waves:
      return "waves";
    case Factor::weed_edge:
      return "weed_edge";
  }
  return {};
}

std::span<const std::string_view> species_names() {
  static const std::vector<std::string_view> names = [] {
    std::vector<std::string_view> result;
    for (const auto& file : castplan_species::files()) result.push_back(stem(file.name));
    return result;
  }();
  return names;
}

const Profile& species(std::string_view name) {
  static const std::vector<Profile> profiles = read_all();  // the language makes this safe for threads
  for (const Profile& profile : profiles) {
    if (profile.name == name) return profile;
  }
  const std::string nearest = nearest_name(name, species_names());
  throw UsageError(fmt::format("no species \"{}\"{}; known are {}; a profile of your own goes in with --species-file",
                               name, nearest.empty() ? "" : fmt::format(", did you mean \"{}\"?", nearest),
                               listed(species_names())));
}

const Phase& phase_at(const Profile& profile, Celsius temperature, Trend trend) {
  assert(!std::isnan(temperature.value()));
  const Phase* lowest = nullptr;
  const Phase* highest = nullptr;
  for (const Phase& phase : profile.phases) {
    const auto& interval = interval_of(phase, trend);
    if (!interval) continue;
    if (holds(interval, temperature)) return phase;
    if (!lowest || interval->from < interval_of(*lowest, trend)->from) lowest = &phase;
    if (!highest || interval->to > interval_of(*highest, trend)->to) highest = &phase;
  }
  assert(lowest && highest);
  return reaches(temperature, interval_of(*lowest, trend)->from) ? *highest : *lowest;
}

const Phase* phase_named(const Profile& profile, std::string_view name) {
  const auto found = std::find_if(profile.phases.begin(), profile.phases.end(),
                                  [name](const Phase& phase) { return phase.name == name; });
  return found == profile.phases.end() ? nullptr : &*found;
}

}  // namespace castplan
