// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "write/carried.hpp"
#include "write/gpx.hpp"
#include "write/plain_text.hpp"
#include "write/waypoints.hpp"

// The files and what is in them; the words of single waypoints are in waypoints.cpp.

namespace castplan {
namespace {

// common practice, no source: older chart plotters hold no more in one file
constexpr std::size_t kMost = 500;

std::string file_name(const Phase* phase) {
  if (!phase) return "waypoints.gpx";
  std::string name = phase->name;
  for (char& letter : name) {
    if (std::isalnum(static_cast<unsigned char>(letter)) == 0) letter = '-';
  }
  return fmt::format("waypoints-{}.gpx", name);
}

void sort_by_distance(std::vector<const Feature*>& hazards, const PhaseSpots* phase) {
  if (!phase || phase->spots.empty()) return;
  const auto away = [&](const Feature* hazard) {
    double least = distance(hazard->anchor, phase->spots.front().boat).value();
    for (const Spot& spot : phase->spots) least = std::min(least, distance(hazard->anchor, spot.boat).value());
    return least;
  };
  std::stable_sort(hazards.begin(), hazards.end(),
                   [&](const Feature* a, const Feature* b) { return away(a) < away(b); });
}

std::vector<const Feature*> of_kind(const Plan& plan, Kind kind) {
  std::vector<const Feature*> out;
  for (const Feature& feature : plan.features) {
    const auto* closure = std::get_if<Closure>(&feature.details);
    if (feature.kind == kind && (!closure || closure->active)) out.push_back(&feature);
  }
  return out;
}

// What a hazard or a closure takes up, as tracks with the name of its waypoint; areas are closed.
void add_outline(GpxFile& file, const Plan& plan, const Feature& feature) {
  const Waypoint& mark = file.waypoints.back();
  std::vector<MicroPath> paths;
  const GroundShape shape = ground_shape(feature.geometry, plan.lake->projection);
  if (const auto* lines = std::get_if<std::vector<MicroPath>>(&shape)) paths = *lines;
  if (const auto* polygons = std::get_if<std::vector<MicroPolygon>>(&shape)) {
    for (const MicroPolygon& polygon : *polygons) {
      paths.push_back(polygon.outer);
      paths.insert(paths.end(), polygon.holes.begin(), polygon.holes.end());
    }
  }
  for (std::size_t at = 0; at < paths.size(); ++at) {
    const std::string name = at == 0 ? mark.name : fmt::format("{}-{}", mark.name, at + 1);
    file.tracks.push_back({name, mark.cmt, mark.desc, {}, std::move(paths[at]), mark.type});
  }
}

// Launches, active closures and hazards, as many as the file still holds. Returns how many were left out.
std::size_t add_marks(GpxFile& file, const Plan& plan, const PhaseSpots* phase, bool outlines) {
  std::size_t left_out = 0;
  for (const Kind kind : {Kind::launch, Kind::closure, Kind::hazard}) {
    std::vector<const Feature*> marks = of_kind(plan, kind);
    const std::size_t room = kMost - file.waypoints.size();
    if (marks.size() > room) {
      sort_by_distance(marks, phase);
      left_out += marks.size() - room;
      marks.resize(room);
    }
    for (std::size_t at = 0; at < marks.size(); ++at) {
      file.waypoints.push_back(mark_waypoint(plan, *marks[at], at + 1, marks.size()));
      if (outlines && kind != Kind::launch) add_outline(file, plan, *marks[at]);
    }
  }
  return left_out;
}

// Routes are cut after so many places; the next begins where the last ends.
void add_route(GpxFile& file, const GpxWay& way, std::size_t most) {
  const std::size_t parts = (way.places.size() - 2) / (most - 1) + 1;
  for (std::size_t part = 0; part < parts; ++part) {
    const auto first = static_cast<std::ptrdiff_t>(part * (most - 1));
    const auto last = static_cast<std::ptrdiff_t>(std::min(way.places.size(), (part + 1) * (most - 1) + 1));
    GpxWay route = way;
    if (parts > 1) route.name += fmt::format("-{}", part + 1);
    route.places.assign(way.places.begin() + first, way.places.begin() + last);
    route.names.assign(way.names.begin() + first, way.names.begin() + last);
    file.routes.push_back(std::move(route));
  }
}

// Passes as the plan wants them. A route whose turns the file cannot hold as waypoints is left out: dangers come first.
std::size_t add_passes(GpxFile& file, const Plan& plan, const PhaseSpots& phase, const std::string& code) {
  std::size_t left_out = 0;
  for (const Pass& pass : phase.passes) {
    const GpxWay way = pass_way(plan, pass, phase.passes.size(), code);
    if (plan.gpx.line != GpxLine::route) file.tracks.push_back(way);
    if (plan.gpx.line == GpxLine::track) continue;
    if (file.waypoints.size() + way.places.size() > kMost) {
      left_out += way.places.size();
      continue;
    }
    for (std::size_t turn = 0; turn < way.places.size(); ++turn) {
      file.waypoints.push_back(turn_waypoint(plan, pass, way, turn));
    }
    add_route(file, way, plan.gpx.most_in_route);
  }
  return left_out;
}

std::string description(const Plan& plan, const PhaseSpots* phase, std::size_t left_out) {
  std::vector<std::string> parts{program_text() + "."};
  for (const std::string& caution : carried_cautions(plan)) parts.push_back(caution);
  if (phase && !phase->why_none.empty()) parts.push_back(sentence(phase->why_none));
  if (left_out > 0) {
    parts.push_back(std::to_string(left_out) +
                    " more waypoints, hazards or turns of passes, stand in features.geojson and passes.geojson only.");
  }
  for (const std::string& fact : carried_facts(plan, phase ? phase->phase : nullptr)) parts.push_back(fact);
  parts.push_back(names_text());
  if (plan.gpx.line != GpxLine::none) parts.emplace_back("P before a number: a pass, and the places of its lane.");
  return joined(parts, " ");
}

GpxFile gpx_file(const Plan& plan, const PhaseSpots* phase, const std::string& code, bool outlines) {
  GpxFile file;
  file.name = one_line(plan.lake_name);
  file.keywords = "castplan";
  if (plan.profile) file.keywords += ", " + one_line(plan.profile->name);
  std::size_t written = 0;
  if (phase) {
    file.name += ", " + one_line(phase->phase->name);
    file.keywords += ", " + one_line(phase->phase->name);
    for (const Spot& spot : phase->spots) {
      if (file.waypoints.size() + (plan.gpx.landings ? 2 : 1) > kMost) break;
      file.waypoints.push_back(spot_waypoint(plan, spot, phase->spots.size(), code));
      ++written;
      if (plan.gpx.landings) file.waypoints.push_back(landing_waypoint(plan, spot, file.waypoints.back()));
    }
  }
  std::size_t left_out = phase ? phase->spots.size() - written : 0;
  left_out += add_marks(file, plan, phase, outlines);
  if (phase && plan.gpx.line != GpxLine::none) left_out += add_passes(file, plan, *phase, code);
  file.desc = description(plan, phase, left_out);
  for (Waypoint& waypoint : file.waypoints) {
    const auto symbol = plan.gpx.symbols.find(waypoint.type);
    if (symbol != plan.gpx.symbols.end()) waypoint.sym = one_line(symbol->second);
  }
  return file;
}

std::vector<OutputFile> files_of(const Plan& plan, const std::vector<const PhaseSpots*>& phases, bool outlines) {
  if (phases.empty()) return {{file_name(nullptr), gpx_text(gpx_file(plan, nullptr, "", outlines))}};
  const std::vector<std::string> codes = phase_codes(phases);
  std::vector<OutputFile> out;
  for (std::size_t at = 0; at < phases.size(); ++at) {
    const Phase* named = phases.size() > 1 ? phases[at]->phase : nullptr;
    out.push_back({file_name(named), gpx_text(gpx_file(plan, phases[at], codes[at], outlines))});
  }
  return out;
}

}  // namespace

std::vector<OutputFile> waypoint_files(const Plan& plan) { return files_of(plan, phases_with_spots(plan), true); }

std::vector<OutputFile> waypoint_files_for_page(const Plan& plan) {
  const std::vector<const PhaseSpots*> phases = phases_with_spots(plan);
  return files_of(plan, phases, phases.size() < 2);
}

}  // namespace castplan
