// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <tuple>

#include "castplan/geo/error.hpp"
#include "castplan/io/lake_file.hpp"
#include "castplan/io/load.hpp"
#include "io/gdal.hpp"
#include "io/inspect_parts.hpp"
#include "io/sounding_readers.hpp"

namespace castplan {
namespace {

constexpr int kOldSurvey = 2000;  ///< surveyed earlier: long before multibeam and satellites were common; design choice

struct Layer {
  std::string key;
  VectorOptions file;
};

std::vector<Layer> layers_of(const LakeFile& file) {
  std::vector<Layer> out;
  if (file.shoreline) out.push_back({"shoreline.file", *file.shoreline});
  for (const auto& one : file.structure) out.push_back({"structure.file", one.file});
  for (const auto& one : file.launches) {
    if (one.file) out.push_back({"launch.file", *one.file});
  }
  for (const auto& one : file.closures) out.push_back({"closure.file", one.file});
  return out;
}

/// A file that cannot be read is one finding among others here.
template <class Look>
bool looked_at(const std::string& key, Inspection& out, const Look& look) {
  try {
    look();
    return true;
  } catch (const InputError& error) {
    out.findings.push_back({Severity::error, "unreadable", fmt::format("{} = {}", key, error.what()),
                            "correct the path, which is relative to the lake file, or the file"});
    return false;
  }
}

void judge_survey(const LakeFile& file, const std::string& name, Inspection& out) {
  if (file.surveyed.empty()) {
    out.findings.push_back({Severity::note, "no-survey-date",
                            fmt::format("{}: does not say when the depths were surveyed", name),
                            "surveyed = 1994 under [depth]"});
  } else if (std::stoi(file.surveyed.substr(0, 4)) < kOldSurvey) {
    out.findings.push_back(
        {Severity::warning, "old-survey",
         fmt::format("{}: the depths were surveyed in {}; the floor and the shore may have changed since, and "
                     "places fixed before satellites are less exact",
                     name, file.surveyed),
         "a newer survey; else error = \"...\" under [depth] that allows for it"});
  }
  if (!file.depth_error) {
    out.findings.push_back({Severity::note, "no-depth-error",
                            fmt::format("{}: does not say how far the depths may be off; a guess is used", name),
                            "error = \"0.3 m\" under [depth]"});
  }
  if (file.source.empty()) {
    out.findings.push_back({Severity::note, "no-source",
                            fmt::format("{}: does not say where the depths come from", name),
                            "source = \"...\" and licence = \"...\" under [depth]"});
  }
}

void missing_tables(const LakeFile& file, Inspection& out) {
  const auto& conditions = file.conditions;
  for (const auto& [key, path] :
       {std::pair{"plants", conditions.plants}, std::pair{"water_temps", conditions.water_temps},
        std::pair{"air_temps", conditions.air_temps}, std::pair{"profile", conditions.profile},
        std::pair{"wind", conditions.wind}}) {
    std::error_code ignored;
    if (path.empty() || std::filesystem::exists(path, ignored)) continue;
    out.findings.push_back({Severity::error, "unreadable",
                            fmt::format("conditions.{} = {}: no such file", key, file_name(path)),
                            "correct the path, which is relative to the lake file"});
  }
}

void inspect_tables(const LakeFile& file, Inspection& out) {
  const auto& conditions = file.conditions;
  const std::tuple<SeriesKind, const char*, const std::string&> tables[] = {
      {SeriesKind::water, "conditions.water_temps", conditions.water_temps},
      {SeriesKind::air, "conditions.air_temps", conditions.air_temps},
      {SeriesKind::profile, "conditions.profile", conditions.profile},
      {SeriesKind::wind, "conditions.wind", conditions.wind}};
  for (const auto& [kind, key, path] : tables) {
    std::error_code ignored;
    if (path.empty() || !std::filesystem::exists(path, ignored)) continue;
    looked_at(key, out, [&, kind = kind, key = key, &path = path] { inspect_series(kind, path, key, out); });
  }
}

bool any_error(const Inspection& out) {
  return std::any_of(out.findings.begin(), out.findings.end(),
                     [](const Finding& finding) { return finding.severity == Severity::error; });
}

/// In degrees; none where there is no file or it cannot be read, which is said of the layer.
Polygons shoreline_of(const LakeFile& file) {
  try {
    return file.shoreline ? read_polygons(*file.shoreline, Projection::geographic()) : Polygons{};
  } catch (const InputError&) {
    return {};
  }
}

/// Soundings and contours instead of a raster: each read as it will be gridded.
void inspect_sources(const LakeFile& file, Inspection& out) {
  const Polygons shoreline = shoreline_of(file);
  for (const SoundingOptions& one : file.soundings) {
    looked_at("depth.soundings.file", out, [&] {
      if (is_read_as_text(one.path)) {
        inspect_table(one, "depth.soundings.file", shoreline, out);
      } else {
        auto read = read_soundings(one, Projection::geographic());  // the reader has the last word
        inspect_vector({one.path, one.layer, one.crs}, "depth.soundings.file", out);
        inspect_soundings(file_name(one.path), std::move(read.soundings), shoreline, out);
      }
    });
  }
  for (const ContourOptions& one : file.contours) {
    looked_at("depth.contours.file", out, [&] {
      static_cast<void>(read_contours(one, Projection::geographic()));
      inspect_vector({one.path, one.layer, one.crs}, "depth.contours.file", out);
    });
  }
}

/// The reader has the last word: what it refuses, `scout` refuses; what it remarks on, nobody else says.
void try_loading(const LakeFile& file, Inspection& out) {
  if (file.raster.path.empty()) return;  // gridded first, which is not looking
  try {
    for (const std::string& note : load_lake(file).notes) {
      out.findings.push_back({Severity::note, "reading", note, ""});
    }
  } catch (const InputError& error) {
    out.findings.push_back({Severity::error, "unusable", error.what(), ""});
  }
}

}  // namespace

void inspect_lake_file(const InspectOptions& options, Inspection& out) {
  const LakeFile file = read_lake_file(options.path);
  FileFacts facts;
  facts.name = file_name(options.path);
  facts.path = options.path;
  facts.kind = "lake-file";
  facts.format = "TOML";
  const std::string name = facts.name;
  out.files.push_back(std::move(facts));
  judge_survey(file, name, out);
  const std::size_t depths = out.files.size();
  if (!file.soundings.empty() || !file.contours.empty()) {
    inspect_sources(file, out);
  } else {
    looked_at("depth.raster", out, [&] { inspect_raster(file.raster, file.raster.sense, "depth.raster", out); });
  }
  const std::size_t layers = out.files.size();
  for (const Layer& layer : layers_of(file)) {
    const bool read = looked_at(layer.key, out, [&] { inspect_vector(layer.file, layer.key, out); });
    for (std::size_t i = depths; read && i < layers; ++i) inspect_overlap(out.files[i], out.files.back(), out);
  }
  missing_tables(file, out);
  if (out.files.size() == 1) throw InputError(out.findings.back().text);
  inspect_tables(file, out);
  if (!any_error(out)) try_loading(file, out);
}

}  // namespace castplan
