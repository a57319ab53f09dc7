// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/inspect_report.hpp"

#include <fmt/format.h>

#include <cmath>

#include "castplan/geo/geodesic.hpp"

namespace castplan {

namespace {

constexpr const char* kIndent = "  {:<12}{}\n";

std::string severity_text(Severity severity) {
  if (severity == Severity::error) return "error";
  return severity == Severity::warning ? "warning" : "note";
}

std::string percent(double share) {
  const double value = 100 * share;
  if (value > 0 && value < 0.1) return "< 0.1 %";
  return fmt::format("{:.{}f} %", value, value > 0 && value < 10 ? 1 : 0);
}

std::string sense_words(Sense sense) {
  if (sense == Sense::depth) return "depth (positive down)";
  return sense == Sense::height ? "height (negative down)" : "elevation of the floor";
}

// West to east and south to north, along the middle of the box.
std::string size_text(const FileFacts& file) {
  const LonLat low = *file.south_west;
  const LonLat high = *file.north_east;
  const LonLat west{low.lon, file.centre->lat};
  const LonLat east{high.lon, file.centre->lat};
  const LonLat south{file.centre->lon, low.lat};
  const LonLat north{file.centre->lon, high.lat};
  return fmt::format("{:.2f} km west to east, {:.2f} km south to north", geodesic(west, east).distance.value() / 1000,
                     geodesic(south, north).distance.value() / 1000);
}

std::string crs_text(const FileFacts& file) {
  if (file.crs.empty()) return "not stated";
  const std::string from = file.crs_given ? ", as given" : "";
  if (!file.crs_accuracy) return fmt::format("{}{} (PROJ does not say how near to WGS 84)", file.crs, from);
  if (file.crs_accuracy->value() == 0) return file.crs + from;
  return fmt::format("{}{} (to WGS 84 within {:g} m, says PROJ)", file.crs, from, file.crs_accuracy->value());
}

std::string raster_lines(const RasterFacts& raster) {
  std::string out =
      fmt::format(kIndent, "cells",
                  fmt::format("{} by {}{}", raster.cols, raster.rows,
                              raster.cell_width ? fmt::format(", each {:.2f} by {:.2f} m", raster.cell_width->value(),
                                                              raster.cell_height->value())
                                                : ""));
  out += fmt::format(kIndent, "no data", percent(raster.nodata_share));
  out += fmt::format(
      kIndent, "unit",
      raster.unit ? fmt::format("{}: {}", unit_text(*raster.unit), raster.unit_evidence) : std::string("not known"));
  if (raster.sense) {
    out += fmt::format(kIndent, "sense", fmt::format("{}: {}", sense_words(*raster.sense), raster.sense_evidence));
  }
  if (raster.low) {
    out += fmt::format(kIndent, "values",
                       fmt::format("{:.2f} to {:.2f}{}{}", *raster.low, *raster.high, raster.unit ? " " : "",
                                   raster.unit ? unit_text(*raster.unit) : ""));
  }
  if (!raster.hypsography.empty()) {
    out +=
        fmt::format(kIndent, "deeper than", raster.unit ? "share of the water" : "share of the water (unit unknown)");
    for (const DeeperShare& step : raster.hypsography) {
      out += fmt::format("  {:>10.6g} {}  {:>7}\n", step.depth, raster.unit ? "m" : " ", percent(step.share));
    }
  }
  return out;
}

std::string layer_lines(const LayerFacts& layer) {
  std::string out = fmt::format(kIndent, "layer",
                                fmt::format("{}: {}, {} {}", layer.name, layer.geometry, layer.records,
                                            layer.records == 1 ? "record" : "records"));
  for (const FieldFacts& field : layer.fields) {
    out += fmt::format("    {} ({}){}\n", field.name, field.type,
                       field.low ? fmt::format(": {:g} to {:g}", *field.low, *field.high) : "");
  }
  return out;
}

std::string file_lines(const FileFacts& file) {
  std::string out = fmt::format("{}: {}, {}{}\n", file.name, file.kind, file.format,
                                file.key.empty() ? "" : fmt::format(" ({})", file.key));
  if (file.centre) {
    out += fmt::format(kIndent, "place", fmt::format("centre {}", place_text(*file.centre)));
    if (file.south_west) out += fmt::format(kIndent, "extent", size_text(file));
  }
  if (file.kind == "raster" || file.kind == "vector" || !file.crs.empty())
    out += fmt::format(kIndent, "crs", crs_text(file));
  if (file.raster) out += raster_lines(*file.raster);
  for (const LayerFacts& layer : file.layers) out += layer_lines(layer);
  return out;
}

}  // namespace

std::string inspect_report(const Inspection& found) {
  std::string out;
  for (const FileFacts& file : found.files) out += file_lines(file) + "\n";
  if (found.findings.empty()) return out + "Nothing looks wrong.\n";
  for (const Finding& finding : found.findings) {
    out += fmt::format("{}: {}\n", severity_text(finding.severity), finding.text);
    if (!finding.mend.empty()) out += fmt::format("  mend: {}\n", finding.mend);
  }
  return out;
}

}  // namespace castplan
