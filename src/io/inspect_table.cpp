// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <set>

#include "castplan/geo/error.hpp"
#include "castplan/io/soundings.hpp"
#include "io/gdal.hpp"
#include "io/inspect_parts.hpp"

namespace castplan {
namespace {

constexpr std::size_t kLevels = 1000;  // different depths are counted no further

SoundingOptions reading_of(const InspectOptions& options) {
  SoundingOptions reading;
  reading.path = options.path;
  reading.crs = options.crs;
  reading.unit = options.unit;
  reading.sense = options.sense;
  reading.surface = options.surface;
  return reading;
}

/// What would mend it follows the last semicolon of our own messages.
void add_error(const std::string& said, Inspection& out) {
  const std::size_t at = said.rfind("; ");
  out.findings.push_back(
      {Severity::error, "table", said.substr(0, at), at == std::string::npos ? std::string() : said.substr(at + 2)});
}

/// Whether there is any figure near the beginning: else it is no table that somebody could mend.
bool holds_figures(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::string start(65536, ' ');
  file.read(start.data(), static_cast<std::streamsize>(start.size()));
  return start.find_first_of("0123456789") != std::string::npos;
}

/// The soundings in degrees; where the unit is not known, in metres with a finding, so that the rest is seen too.
std::optional<SoundingsRead> read_with_findings(SoundingOptions reading, Inspection& out) {
  try {
    return read_soundings(reading, Projection::geographic());
  } catch (const InputError& error) {
    if (!holds_figures(reading.path)) throw;
    add_error(error.what(), out);
  }
  if (reading.unit) return std::nullopt;
  reading.unit = DepthUnit::metre;
  try {
    return read_soundings(reading, Projection::geographic());
  } catch (const InputError& error) {
    if (out.findings.back().text != std::string(error.what()).substr(0, out.findings.back().text.size())) {
      add_error(error.what(), out);
    }
    return std::nullopt;
  }
}

FieldFacts column(const std::string& name, double low, double high, std::size_t values) {
  FieldFacts facts;
  facts.name = name;
  facts.type = "number";
  facts.low = low;
  facts.high = high;
  facts.values = values;
  return facts;
}

void add_place(const std::vector<Sounding>& soundings, FileFacts& facts) {
  if (soundings.empty()) return;
  LonLat low{{HUGE_VAL}, {HUGE_VAL}}, high{{-HUGE_VAL}, {-HUGE_VAL}};
  for (const Sounding& each : soundings) {
    low = {{std::min(low.lon.degrees, each.at.x)}, {std::min(low.lat.degrees, each.at.y)}};
    high = {{std::max(high.lon.degrees, each.at.x)}, {std::max(high.lat.degrees, each.at.y)}};
  }
  facts.south_west = low;
  facts.north_east = high;
  facts.centre = LonLat{{(low.lon.degrees + high.lon.degrees) / 2}, {(low.lat.degrees + high.lat.degrees) / 2}};
}

std::optional<Metres> accuracy_at(const std::optional<LonLat>& centre, const std::string& crs) {
  const Projection system = crs.empty() ? Projection::geographic() : Projection::from_text(crs);
  return (centre ? system.near(system.from_lonlat(*centre)) : system).accuracy();
}

LayerFacts layer_of_table(const SoundingsRead& read, const FileFacts& facts) {
  const DepthSource& source = read.source;
  LayerFacts layer;
  layer.name = source.file;
  layer.geometry = "Point";
  layer.records = static_cast<long long>(source.rows);
  if (facts.south_west && !source.columns.x.empty()) {
    layer.fields.push_back(
        column(source.columns.x, facts.south_west->lon.degrees, facts.north_east->lon.degrees, source.used));
    layer.fields.push_back(
        column(source.columns.y, facts.south_west->lat.degrees, facts.north_east->lat.degrees, source.used));
    layer.fields.front().type = "number, as longitude";
    layer.fields.back().type = "number, as latitude";
  }
  FieldFacts depth = column(source.columns.depth.empty() ? "depth" : source.columns.depth, source.shallowest.value(),
                            source.deepest.value(), source.used);
  depth.type = "number, as depth in metres";
  std::set<float> levels;
  for (const Sounding& each : read.soundings) {
    if (levels.size() < kLevels) levels.insert(each.depth.value());
  }
  depth.levels = levels.size();
  layer.depth_field = depth.name;
  layer.fields.push_back(std::move(depth));
  return layer;
}

/// How it was read, and every row that was not.
void add_account(const DepthSource& source, bool unit_known, Inspection& out) {
  std::string how = source.format;
  if (!source.separator.empty()) {
    how += fmt::format(", parted by {}, decimal mark '{}', {} header", source.separator, source.decimal,
                       source.header ? "with a" : "without a");
  }
  how += fmt::format("; unit {} ({}); {} ({})", unit_known ? source.unit : "not known, metres in this report",
                     unit_known ? source.unit_from : "no column says", sense_text(source.sense), source.sense_from);
  std::string mend;
  if (!source.columns.x.empty()) {
    mend = fmt::format(
        "if that is wrong: columns = {{ x = \"{}\", y = \"{}\", depth = \"{}\" }} beside the file in the lake file",
        source.columns.x, source.columns.y, source.columns.depth);
  }
  out.findings.push_back({Severity::note, "read-as", fmt::format("{}: read as {}", source.file, how), mend});
  for (const auto& [why, count] : source.reasons) {
    const auto first = std::find_if(source.unread.begin(), source.unread.end(),
                                    [&](const auto& each) { return each.why.starts_with(why); });
    out.findings.push_back(
        {Severity::warning, "unread",
         fmt::format("{}: {} of {} {}s are not used{}: {}", source.file, count, source.rows, source.row_name,
                     first == source.unread.end() ? std::string()
                                                  : fmt::format(" (such as {} {})", source.row_name, first->line),
                     why),
         ""});
  }
  for (const std::string& note : source.notes) out.findings.push_back({Severity::note, "table", note, ""});
}

}  // namespace

void inspect_table(const SoundingOptions& options, const std::string& key, const Polygons& shoreline, Inspection& out) {
  FileFacts facts;
  facts.name = file_name(options.path);
  facts.path = options.path;
  facts.key = key;
  facts.kind = "table";
  facts.format = options.path.ends_with(".gpx") ? "GPX" : "text table";
  const std::size_t before = out.findings.size();
  std::optional<SoundingsRead> read = read_with_findings(options, out);
  const bool unit_known = out.findings.size() == before;
  if (read) {
    facts.format = read->source.format;
    facts.crs = read->source.crs;
    facts.crs_given = !options.crs.empty();
    add_place(read->soundings, facts);
    facts.crs_accuracy = accuracy_at(facts.centre, options.crs);
    facts.layers.push_back(layer_of_table(*read, facts));
    add_account(read->source, unit_known, out);
    inspect_soundings(facts.name, std::move(read->soundings), shoreline, out);
  }
  out.files.push_back(std::move(facts));
}

void inspect_table_file(const InspectOptions& options, Inspection& out) {
  inspect_table(reading_of(options), "", {}, out);
}

}  // namespace castplan
