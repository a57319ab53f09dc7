// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/sheet_stops.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

#include "castplan/terrain/fetch.hpp"
#include "write/map_page.hpp"
#include "write/sheet_ways.hpp"

namespace castplan::sheet {
namespace {

constexpr std::size_t kMostAlternates = 2;
constexpr std::size_t kAlwaysStops = 4;
constexpr std::size_t kMostLaunches = 5;
constexpr std::array<const char*, 9> kParts{"NW", "N", "NE", "W", "mid", "E", "SW", "S", "SE"};

// Metres of water before each place; infinite where the map ends first.
std::vector<double> fetches_at(const Plan& plan, std::span<const Spot> spots) {
  std::optional<WindFetch> winds;
  if (!plan.wind) winds.emplace(*plan.lake);
  std::vector<double> out;
  for (const Spot& spot : spots) {
    std::optional<Metres> fetch;
    if (plan.wind) {
      const Projection& projection = plan.lake->projection;
      const double turn = projection.scale_at(projection.to_lonlat(spot.boat)).convergence.value();
      const double from = (plan.wind->from.value() - turn) * 3.14159265358979323846 / 180.0;
      fetch = effective_fetch(*plan.lake, spot.boat, {std::sin(from), std::cos(from)});
    } else {
      fetch = winds->greatest(spot.boat);
    }
    out.push_back(fetch ? fetch->value() : std::numeric_limits<double>::infinity());
  }
  return out;
}

void choose_alternates(const Plan& plan, const MapView& view, std::span<const Spot> spots, Stops& out) {
  std::vector<std::pair<double, std::size_t>> by_fetch;
  if (spots.size() > kAlwaysStops) {
    for (const double fetch : fetches_at(plan, spots.subspan(kAlwaysStops))) {
      by_fetch.emplace_back(fetch, kAlwaysStops + by_fetch.size());
    }
  }
  std::erase_if(by_fetch, [](const auto& one) { return !std::isfinite(one.first); });
  std::sort(by_fetch.begin(), by_fetch.end());
  by_fetch.resize(std::min(by_fetch.size(), kMostAlternates));
  std::sort(by_fetch.begin(), by_fetch.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  for (const auto& [fetch, i] : by_fetch) {
    out.alternates.push_back({&spots[i], spot_label(plan, 0, spots[i]), lake_part(view, spots[i].boat)});
    out.fetches.push_back(fetch);
  }
}

std::vector<const Feature*> launches(const Plan& plan, Stops& out) {
  std::vector<const Feature*> found;
  for (const Feature& feature : plan.features) {
    if (feature.kind != Kind::launch || found.size() >= kMostLaunches) continue;
    const auto* launch = std::get_if<Launch>(&feature.details);
    if (launch != nullptr && launch->dry) {
      out.launches_dry = true;
    } else {
      found.push_back(&feature);
    }
  }
  if (!found.empty()) out.launches_dry = false;
  return found;
}

double tour_length(const std::vector<std::size_t>& order, const std::vector<double>& from_start,
                   const std::vector<std::vector<double>>& between) {
  double length = from_start[order.front()] + from_start[order.back()];
  for (std::size_t i = 0; i + 1 < order.size(); ++i) length += between[order[i]][order[i + 1]];
  return length;
}

std::vector<double> lengths(const std::vector<Way>& ways) {
  std::vector<double> out;
  out.reserve(ways.size());
  for (const Way& way : ways) out.push_back(way.length);
  return out;
}

void note_crossing(const std::string& from, const std::string& to, double open, Stops& out) {
  if (open <= out.crossing) return;
  out.crossing = open;
  out.crossing_from = from;
  out.crossing_to = to;
}

void put_in_order(const Plan& plan, Stops& out) {
  std::vector<XY> places;
  std::vector<int> parts;
  for (const Stop& stop : out.stops) {
    places.push_back(stop.spot->boat);
    parts.push_back(static_cast<int>(std::find(kParts.begin(), kParts.end(), stop.part) - kParts.begin()));
  }
  const WaterWays water(*plan.lake);
  std::vector<std::vector<Way>> ways;
  std::vector<std::vector<double>> between;
  for (const XY place : places) {
    ways.push_back(water.from(place, places));
    between.push_back(lengths(ways.back()));
  }
  std::vector<std::size_t> order = running_order(parts, std::nullopt, between);
  std::vector<Way> first_ways;
  double shortest = std::numeric_limits<double>::infinity();
  for (const Feature* launch : launches(plan, out)) {
    const std::vector<Way> start = water.from(launch->anchor, places);
    const std::vector<std::size_t> by = running_order(parts, lengths(start), between);
    const double length = tour_length(by, lengths(start), between);
    if (length >= shortest) continue;
    shortest = length;
    order = by;
    first_ways = start;
    out.launch = launch;
  }
  for (std::size_t i = 0; i + 1 < order.size(); ++i) {
    note_crossing(out.stops[order[i]].label, out.stops[order[i + 1]].label, ways[order[i]][order[i + 1]].open, out);
  }
  if (out.launch != nullptr) {
    note_crossing("launch", out.stops[order.front()].label, first_ways[order.front()].open, out);
    note_crossing(out.stops[order.back()].label, "launch", first_ways[order.back()].open, out);
  }
  std::vector<Stop> sorted;
  sorted.reserve(order.size());
  for (const std::size_t i : order) sorted.push_back(out.stops[i]);
  out.stops = std::move(sorted);
}

}  // namespace

std::string lake_part(const MapView& view, XY at) {
  const auto third = [](double share) { return static_cast<std::size_t>(std::clamp(share * 3.0, 0.0, 2.0)); };
  const std::size_t row = third((view.box.high.y - at.y) / view.height());
  const std::size_t col = third((at.x - view.box.low.x) / view.width());
  return kParts[3 * row + col];
}

Stops chosen_stops(const Plan& plan, std::size_t most) {
  Stops out;
  if (plan.phases.size() != 1) return out;
  const std::span<const Spot> spots = shown_spots(plan, 0);
  out.spots = spots.size();
  if (spots.empty()) return out;
  const MapView view = view_of(*plan.lake, {});
  choose_alternates(plan, view, spots, out);
  for (const Spot& spot : spots) {
    const bool kept = std::any_of(out.alternates.begin(), out.alternates.end(),
                                  [&](const Stop& other) { return other.spot == &spot; });
    if (kept || out.stops.size() >= most) continue;
    out.stops.push_back({&spot, spot_label(plan, 0, spot), lake_part(view, spot.boat)});
  }
  put_in_order(plan, out);
  return out;
}

}  // namespace castplan::sheet
