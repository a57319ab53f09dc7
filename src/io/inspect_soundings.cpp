// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "castplan/survey/clean.hpp"
#include "io/inspect_parts.hpp"

namespace castplan {
namespace {

/// What each reason is called, and what mends it.
struct Verdict {
  Rejection reason;
  Severity severity;
  std::string_view code;
  std::string_view what;
  std::string_view mend;
};
constexpr std::string_view kListed = "castplan grid --rejected FILE lists them";
constexpr std::string_view kSense =
    "sense = \"height\" beside the file if it counts downwards with a minus, or --sense";
constexpr std::string_view kPlace = "crs = \"EPSG:...\" beside the file, or the right shoreline";
constexpr std::array kVerdicts{
    Verdict{Rejection::not_finite, Severity::warning, "no-number", "hold no finite place or depth", kListed},
    Verdict{Rejection::above_water, Severity::warning, "above-water", "lie above the water", kSense},
    Verdict{Rejection::on_land, Severity::warning, "on-land", "lie outside the shoreline", kPlace},
    Verdict{Rejection::spike, Severity::warning, "spikes", "jump away from their neighbours on the track", kListed},
    Verdict{Rejection::outlier, Severity::warning, "outliers", "stand far off the soundings about them", kListed},
    Verdict{Rejection::duplicate, Severity::note, "repeats", "repeat a place within 0.1 m", ""},
};

Projection plane_about(const std::vector<Sounding>& soundings) {
  double lon = 0, lat = 0;
  std::size_t count = 0;
  for (const Sounding& each : soundings) {
    if (!std::isfinite(each.at.x) || !std::isfinite(each.at.y)) continue;
    lon += each.at.x;
    lat += each.at.y;
    ++count;
  }
  const double share = count > 0 ? 1.0 / static_cast<double>(count) : 0.0;
  return Projection::transverse_mercator({Longitude{lon * share}, Latitude{lat * share}});
}

Line moved(const Line& degrees, const Projection& plane) {
  Line line;
  line.reserve(degrees.size());
  for (const XY at : degrees) line.push_back(plane.from_lonlat({Longitude{at.x}, Latitude{at.y}}));
  return line;
}

Polygons moved(const Polygons& degrees, const Projection& plane) {
  Polygons out;
  for (const Polygon& polygon : degrees) {
    out.push_back({moved(polygon.outer, plane), {}});
    for (const Line& hole : polygon.holes) out.back().holes.push_back(moved(hole, plane));
  }
  return out;
}

}  // namespace

void inspect_soundings(const std::string& name, std::vector<Sounding> soundings, const Polygons& shoreline,
                       Inspection& out) {
  if (soundings.empty()) return;
  const Projection plane = plane_about(soundings);
  for (Sounding& each : soundings) each.at = plane.from_lonlat({Longitude{each.at.x}, Latitude{each.at.y}});
  const std::size_t all = soundings.size();
  const Cleaned cleaned = clean_soundings(std::move(soundings), moved(shoreline, plane));
  for (const Verdict& verdict : kVerdicts) {
    const std::size_t count = cleaned.count(verdict.reason);
    if (count == 0) continue;
    const auto first = std::find_if(cleaned.rejected.begin(), cleaned.rejected.end(),
                                    [&](const Rejected& each) { return each.reason == verdict.reason; });
    const LonLat place = plane.to_lonlat(first->sounding.at);
    out.findings.push_back({verdict.severity, std::string(verdict.code),
                            fmt::format("{}: {} of {} soundings {}, the first {:.2f} m deep at {}", name, count, all,
                                        verdict.what, first->sounding.depth.value(), place_text(place)),
                            std::string(verdict.mend)});
  }
}

}  // namespace castplan
