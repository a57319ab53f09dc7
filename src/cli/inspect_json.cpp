// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <cmath>

#include "castplan/write/text.hpp"
#include "cli/inspect_report.hpp"

namespace castplan {

namespace {

void add_number(JsonText& json, std::string_view key, std::optional<double> value, int decimals) {
  json.key(key);
  if (value) {
    json.number(*value, decimals);
  } else {
    json.null();
  }
}

void add_text(JsonText& json, std::string_view key, const std::string& value) {
  json.key(key);
  if (value.empty()) {
    json.null();
  } else {
    json.text(value);
  }
}

std::optional<double> metres(const std::optional<Metres>& length) {
  if (!length) return std::nullopt;
  return length->value();
}

void add_place(JsonText& json, std::string_view key, const std::optional<LonLat>& place) {
  json.key(key);
  if (!place) {
    json.null();
    return;
  }
  json.begin_array().number(place->lon.degrees, 6).number(place->lat.degrees, 6).end_array();
}

void add_raster(JsonText& json, const RasterFacts& raster) {
  json.key("raster").begin_object();
  json.key("columns").integer(raster.cols).key("rows").integer(raster.rows);
  add_number(json, "cell_width_m", metres(raster.cell_width), 2);
  add_number(json, "cell_height_m", metres(raster.cell_height), 2);
  add_number(json, "nodata_share", raster.nodata_share, 4);
  add_text(json, "unit", raster.unit ? unit_text(*raster.unit) : "");
  add_text(json, "unit_evidence", raster.unit_evidence);
  add_text(json, "sense", raster.sense ? sense_text(*raster.sense) : "");
  add_text(json, "sense_evidence", raster.sense_evidence);
  add_number(json, "low", raster.low, 4);
  add_number(json, "high", raster.high, 4);
  json.key("levels").integer(static_cast<long long>(raster.levels));
  add_number(json, "flat_share", raster.flat_share, 4);
  json.key("hypsography").begin_array();
  for (const DeeperShare& step : raster.hypsography) {
    json.begin_object();
    // a depth of unknown unit is no depth in metres
    add_number(json, raster.unit ? "depth_m" : "depth", step.depth, 4);
    add_number(json, "deeper_share", step.share, 4);
    json.end_object();
  }
  json.end_array().end_object();
}

void add_layers(JsonText& json, const std::vector<LayerFacts>& layers) {
  json.key("layers").begin_array();
  for (const LayerFacts& layer : layers) {
    json.begin_object();
    add_text(json, "name", layer.name);
    add_text(json, "geometry", layer.geometry);
    json.key("records").integer(layer.records);
    add_text(json, "depth_field", layer.depth_field);
    json.key("fields").begin_array();
    for (const FieldFacts& field : layer.fields) {
      json.begin_object();
      add_text(json, "name", field.name);
      add_text(json, "type", field.type);
      json.key("numbers").integer(static_cast<long long>(field.values));
      add_number(json, "low", field.low, 4);
      add_number(json, "high", field.high, 4);
      json.end_object();
    }
    json.end_array().end_object();
  }
  json.end_array();
}

void add_file(JsonText& json, const FileFacts& file) {
  json.begin_object();
  add_text(json, "name", file.name);
  add_text(json, "key", file.key);
  add_text(json, "kind", file.kind);
  add_text(json, "format", file.format);
  add_text(json, "crs", file.crs);
  add_number(json, "crs_accuracy_m", metres(file.crs_accuracy), 2);
  add_place(json, "centre", file.centre);
  add_place(json, "south_west", file.south_west);
  add_place(json, "north_east", file.north_east);
  if (file.raster) add_raster(json, *file.raster);
  if (!file.layers.empty()) add_layers(json, file.layers);
  json.end_object();
}

}  // namespace

std::string inspect_json(const Inspection& found) {
  JsonText json;
  json.begin_object().key("schema").integer(1).key("files").begin_array();
  for (const FileFacts& file : found.files) add_file(json, file);
  json.end_array().key("findings").begin_array();
  for (const Finding& finding : found.findings) {
    json.begin_object().key("severity");
    json.text(finding.severity == Severity::error     ? "error"
              : finding.severity == Severity::warning ? "warning"
                                                      : "note");
    json.key("code").text(finding.code).key("text").text(finding.text).key("mend").text(finding.mend).end_object();
  }
  json.end_array().key("warnings").begin_array();
  for (const Finding& finding : found.findings) {
    if (finding.severity == Severity::note) continue;
    json.begin_object().key("code").text(finding.code).key("text").text(finding.text).end_object();
  }
  json.end_array().end_object();
  return json.str() + "\n";
}

}  // namespace castplan
