// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/layers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "castplan/geo/error.hpp"
#include "castplan/geo/planar.hpp"
#include "io/gdal.hpp"
#include "io/number_text.hpp"

namespace castplan {
namespace {

/// The first of some fields that the record fills, whatever their case.
std::string field(const Record& record, std::initializer_list<std::string_view> names) {
  for (const std::string_view name : names) {
    for (const auto& [key, value] : record.attributes) {
      if (lower(key) == name) return value;
    }
  }
  return {};
}

/// inflow: cool, warm or unknown, from whichever field says so.
std::string inflow_water(const Record& record) {
  for (const auto& [key, value] : record.attributes) {
    const std::string word = lower(value);
    if (word == "cool" || word == "warm" || word == "unknown") return word;
  }
  return "unknown";
}

std::string attribute_of(const Record& record, const std::string& kind) {
  if (kind == "inflow") return inflow_water(record);
  return kind == "hazard" ? field(record, {"attribute", "type", "kind", "hazard", "what"}) : std::string();
}

bool meets_water(const Lake& lake, const Geometry& geometry) {
  const Points all = vertices(geometry);
  return std::any_of(all.begin(), all.end(), [&](XY place) { return cover_at(lake, place) == Cover::water; });
}

struct Tally {
  long long unmapped = 0;
  std::set<std::string> unmapped_values;
  long long outside = 0;
};

/// The kind that a record stands for; empty when the layer's map does not name its value.
std::string kind_of(const Record& record, const LakeFile::Structure& layer, Tally& tally) {
  if (!layer.kind.empty()) return layer.kind;
  const auto value = record.attributes.find(layer.attribute);
  const std::string written = value == record.attributes.end() ? std::string() : value->second;
  const auto meaning = layer.map.find(written);
  if (meaning != layer.map.end()) return meaning->second;
  ++tally.unmapped;
  tally.unmapped_values.insert(written.empty() ? "(empty)" : written);
  return {};
}

void check_field(const std::vector<Record>& records, const LakeFile::Structure& layer) {
  if (layer.attribute.empty()) return;
  std::set<std::string> names;
  for (const Record& record : records) {
    for (const auto& [key, value] : record.attributes) names.insert(key);
  }
  if (names.count(layer.attribute) > 0) return;
  const std::vector<std::string_view> list(names.begin(), names.end());
  throw InputError(fmt::format("{}: no field {} (attribute of the [[structure]]); it has {}",
                               file_name(layer.file.path), layer.attribute, list.empty() ? "none" : listed(list)));
}

void note_tally(const Tally& tally, const std::string& shown, std::vector<std::string>& notes) {
  if (tally.unmapped > 0) {
    const std::vector<std::string_view> values(tally.unmapped_values.begin(), tally.unmapped_values.end());
    notes.push_back(fmt::format("{}: {} records left out, because map does not name their value: {}", shown,
                                tally.unmapped, listed(values)));
  }
  if (tally.outside > 0) {
    notes.push_back(fmt::format("{}: {} records lie outside the water", shown, tally.outside));
  }
}

void add_structure(const LakeFile::Structure& layer, LoadedLake& out) {
  const std::string shown = file_name(layer.file.path);
  const std::vector<Record> records = read_vector(layer.file, out.lake.projection);
  check_field(records, layer);
  Tally tally;
  for (const Record& record : records) {
    const std::string kind = kind_of(record, layer, tally);
    if (kind.empty()) continue;
    if (kind == "weeds" && !std::holds_alternative<Polygons>(record.geometry)) {
      throw InputError(fmt::format("{}: weeds are given as points or lines; expected polygons", shown));
    }
    if (!meets_water(out.lake, record.geometry)) ++tally.outside;
    out.structure.push_back({kind, field(record, {"name"}), attribute_of(record, kind), shown, record.geometry});
  }
  note_tally(tally, shown, out.notes);
}

}  // namespace

void load_structure(const LakeFile& file, LoadedLake& out) {
  std::set<std::string_view> given;
  for (const LakeFile::Structure& layer : file.structure) {
    add_structure(layer, out);
    if (!layer.kind.empty()) given.insert(layer.kind);
    for (const auto& [value, kind] : layer.map) given.insert(kind);
  }
  for (const std::string_view kind : structure_kinds()) {
    if (given.count(kind) > 0) out.layers_given.emplace_back(kind);
  }
}

void load_launches(const LakeFile& file, LoadedLake& out) {
  for (const LakeFile::Launch& launch : file.launches) {
    if (launch.at) {
      out.launches.push_back({launch.name, launch.usable_above, out.lake.projection.from_lonlat(*launch.at)});
      continue;
    }
    for (const Record& record : read_vector(*launch.file, out.lake.projection)) {
      const auto* points = std::get_if<Points>(&record.geometry);
      if (points == nullptr) {
        throw InputError(
            fmt::format("{}: launches are given as lines or areas; expected points", file_name(launch.file->path)));
      }
      const std::string own = field(record, {"name"});
      for (const XY place : *points) {
        out.launches.push_back({own.empty() ? launch.name : own, launch.usable_above, place});
      }
    }
  }
}

void load_closures(const LakeFile& file, LoadedLake& out) {
  for (const LakeFile::Closure& closure : file.closures) {
    for (Record& record : read_vector(closure.file, out.lake.projection)) {
      MappedClosure one{closure.kind, closure.name, closure.from, closure.to, file_name(closure.file.path), {}};
      if (one.name.empty()) one.name = field(record, {"name"});
      const bool wider = closure.buffer && closure.buffer->value() > 0;
      one.geometry = wider ? Geometry(buffered(record.geometry, *closure.buffer)) : std::move(record.geometry);
      out.closures.push_back(std::move(one));
    }
  }
}

}  // namespace castplan
