// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <map>

#include "castplan/features/detect.hpp"
#include "castplan/grid/sample.hpp"

namespace castplan {

namespace {

// The corners of the shape, each once: without the point that closes a ring.
Points corners(const Geometry& geometry) {
  const auto* polygons = std::get_if<Polygons>(&geometry);
  if (polygons == nullptr) return vertices(geometry);
  Points all;
  const auto add = [&](const Ring& ring) {
    if (!ring.empty()) all.insert(all.end(), ring.begin(), ring.end() - 1);
  };
  for (const Polygon& polygon : *polygons) {
    add(polygon.outer);
    for (const Ring& hole : polygon.holes) add(hole);
  }
  return all;
}

// A place that stands for the shape: itself, the middle of a line, the mean of an outline's corners.
XY anchor_of(const Geometry& geometry) {
  if (const auto* lines = std::get_if<Lines>(&geometry)) {
    if (!lines->empty() && !lines->front().empty()) return point_along(begun_at_north(lines->front()), 0.5);
  }
  const Points all = corners(geometry);
  XY sum{};
  for (const XY at : all) sum = sum + at;
  return all.size() == 1 ? all.front() : sum * (1.0 / static_cast<double>(std::max<std::size_t>(all.size(), 1)));
}

// Mean of the known depths at the shape's corners and anchor.
std::optional<Metres> depth_of(const Lake& lake, const Geometry& geometry, XY anchor) {
  Points places = corners(geometry);
  places.push_back(anchor);
  double sum = 0;
  int count = 0;
  for (const XY at : places) {
    const float depth = bilinear(lake.depth, at);
    if (!(depth > 0)) continue;
    sum += depth;
    ++count;
  }
  if (count == 0) return std::nullopt;
  return Metres(sum / count);
}

Feature structure_feature(const Lake& lake, const MappedStructure& mapped, int number) {
  Feature feature;
  feature.kind = *kind_named(mapped.kind);
  feature.geometry = mapped.geometry;
  feature.anchor = anchor_of(mapped.geometry);
  feature.confidence = 0.9;  // design: as mapped by the user
  std::string label(row_of(feature.kind).label);
  label.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(label.front())));
  feature.name = mapped.name.empty() ? fmt::format("{} {}", label, number) : mapped.name;
  feature.details = Structure{depth_of(lake, mapped.geometry, feature.anchor), mapped.source_file, mapped.attribute};
  return feature;
}

// Trees were cut or drowned where they stood: what reaches up to the keel at today's level is struck.
std::optional<Feature> stump_hazard(const Ground& ground, const Feature& wood, const DetectOptions& options,
                                    int number) {
  const auto& mapped = std::get<Structure>(wood.details);
  if (!ground.reservoir || wood.kind != Kind::wood || !mapped.depth) return std::nullopt;
  const Metres top = *mapped.depth - options.stump_height;
  if (top >= floating_depth(ground.lake, options.draft, options.margin)) return std::nullopt;
  Feature hazard = wood;
  hazard.kind = Kind::hazard;
  hazard.name = fmt::format("Stumps {}", number);
  hazard.details = Structure{std::max(Metres(0), top), mapped.source_file, "stumps"};
  return hazard;
}

ClosureKind closure_kind(std::string_view name) {
  for (const ClosureKind kind : {ClosureKind::no_fishing, ClosureKind::no_wake, ClosureKind::electric_only}) {
    if (name_of(kind) == name) return kind;
  }
  return ClosureKind::no_entry;  // the strictest of them
}

Feature closure_feature(const MappedClosure& mapped, int number) {
  Feature feature;
  feature.kind = Kind::closure;
  feature.geometry = mapped.geometry;
  feature.anchor = anchor_of(mapped.geometry);
  feature.confidence = 1;
  feature.name = mapped.name.empty() ? fmt::format("Closure {}", number) : mapped.name;
  feature.details = Closure{closure_kind(mapped.kind), mapped.from, mapped.to, mapped.active, mapped.source_file};
  return feature;
}

Feature launch_feature(const MappedLaunch& mapped, int number) {
  Feature feature;
  feature.kind = Kind::launch;
  feature.geometry = Points{mapped.place};
  feature.anchor = mapped.place;
  feature.confidence = 1;
  feature.name = mapped.name.empty() ? fmt::format("Launch {}", number) : mapped.name;
  feature.details = Launch{mapped.usable_above, mapped.dry};
  return feature;
}

}  // namespace

std::vector<Feature> mapped_features(const Ground& ground, const DetectOptions& options) {
  std::vector<Feature> found;
  std::map<std::string, int> count;
  for (const MappedStructure& mapped : ground.structure) {
    found.push_back(structure_feature(ground.lake, mapped, ++count[mapped.kind]));
    if (auto stumps = stump_hazard(ground, found.back(), options, count["stumps"] + 1)) {
      ++count["stumps"];
      found.push_back(std::move(*stumps));
    }
  }
  for (const MappedClosure& mapped : ground.closures) found.push_back(closure_feature(mapped, ++count["closure"]));
  for (const MappedLaunch& mapped : ground.launches) found.push_back(launch_feature(mapped, ++count["launch"]));
  return found;
}

}  // namespace castplan
