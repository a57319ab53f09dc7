// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/grid_report.hpp"

#include <fmt/format.h>

#include <cctype>
#include <cmath>

#include "castplan/write/text.hpp"

namespace castplan {

namespace {

constexpr const char* kCaution =
    "Not for navigation. A depth between data is an estimate: the second band says how far it may be wrong.";

/// "on land" as "ON_LAND".
std::string key_of(std::string_view words) {
  std::string key(words);
  for (char& c : key) c = c == ' ' ? '_' : static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return key;
}

std::string source_line(const DepthSource& source) {
  std::string line = fmt::format("  {}: {}", source.file, source.format);
  if (!source.separator.empty())
    line += fmt::format(", parted by {}, decimal mark '{}'", source.separator, source.decimal);
  if (!source.columns.depth.empty()) {
    line += source.columns.x.empty()
                ? fmt::format(", depth from {}", source.columns.depth)
                : fmt::format(", columns {}, {}, {}", source.columns.x, source.columns.y, source.columns.depth);
  }
  line += fmt::format("; unit {} ({}); {} ({})\n", source.unit, source.unit_from, source.crs, source.crs_from);
  line += fmt::format("    {} of {} {}s used, {:.2f} to {:.2f} m, about {:.4f} {}, {:.4f} {}\n", source.used,
                      source.rows, source.row_name, source.shallowest.value(), source.deepest.value(),
                      std::abs(source.centre.lat.degrees), source.centre.lat.degrees < 0 ? "S" : "N",
                      std::abs(source.centre.lon.degrees), source.centre.lon.degrees < 0 ? "W" : "E");
  for (const auto& [why, count] : source.reasons) line += fmt::format("    {} not read: {}\n", count, why);
  return line;
}

std::string cleaning_lines(const Cleaned& cleaned, const std::string& rejected) {
  if (cleaned.kept.empty() && cleaned.rejected.empty()) return "";
  std::string out = fmt::format("Soundings: {} used, {} not.\n", cleaned.kept.size(), cleaned.rejected.size());
  for (const Rejection reason : kRejections) {
    if (cleaned.count(reason) > 0) out += fmt::format("  {} {}\n", cleaned.count(reason), text(reason));
  }
  if (!cleaned.rejected.empty() && !rejected.empty()) out += fmt::format("  listed in {}\n", rejected);
  return out;
}

std::string check_lines(const CrossValidation& check) {
  if (check.all.count == 0) return "Too few data to hold any back: the error is not known.\n";
  std::string out = fmt::format(
      "Held back in {} turns, by squares of {:.0f} m, the data differ from the surface by {:.2f} m (root mean square), "
      "bias {:+.2f} m, 95 % within {:.2f} m:\n  depth m        count    rmse    bias     p95\n",
      check.folds, check.block.value(), check.all.rmse.value(), check.all.bias.value(), check.all.p95.value());
  for (const HeldBackByDepth& each : check.by_depth) {
    out += fmt::format("  {:5.1f} to {:5.1f} {:8} {:7.2f} {:+7.2f} {:7.2f}\n", each.from.value(), each.to.value(),
                       each.result.count, each.result.rmse.value(), each.result.bias.value(), each.result.p95.value());
  }
  return out;
}

}  // namespace

GridFigures figures_of(const SurveyedLake& made) {
  const Lake lake = make_lake(made.projection, made.surface.depth, made.shoreline);
  return {lake.area, lake.volume, lake.mean_depth, lake.max_depth};
}

std::string grid_report(const SurveyedLake& made, const GridFigures& figures, const std::string& out,
                        const std::string& rejected) {
  const Surface& surface = made.surface;
  const Frame& frame = surface.depth.frame();
  std::string report = "Read:\n";
  for (const DepthSource& source : made.sources) report += source_line(source);
  report += cleaning_lines(made.cleaned, rejected);
  report += fmt::format("Grid: {} x {} cells of {:g} m on {}.\n", frame.rows, frame.cols, frame.cell.value(),
                        made.projection.name());
  report +=
      fmt::format("Lake: {:.1f} ha, deepest {:.2f} m, mean {:.2f} m, {:.3f} million m3.\n", figures.area.value() / 1e4,
                  figures.max_depth.value(), figures.mean_depth.value(), figures.volume.value() / 1e6);
  report += fmt::format("The deepest datum is {:.2f} m; {:.2f} % of the cells are flat.\n",
                        surface.deepest_datum.value(), 100 * surface.flat_share);
  report += check_lines(surface.check);
  report += fmt::format("{}\nWritten: {} (band 1 depth, band 2 standard error, metres)\n", kCaution, out);
  return report;
}

namespace {

void write_warnings(JsonText& json, const SurveyedLake& made) {
  const auto say = [&](std::string_view code, const std::string& text) {
    json.begin_object().key("code").text(code).key("text").text(text).end_object();
  };
  json.key("warnings").begin_array();
  say("not-for-navigation", kCaution);
  for (const Rejection reason : kRejections) {
    const std::size_t count = made.cleaned.count(reason);
    if (count > 0) say("soundings-rejected", fmt::format("{} soundings are not used: {}", count, text(reason)));
  }
  if (made.surface.check.all.count == 0) say("error-unknown", "Too few data to hold any back: the error is not known.");
  for (const std::string& note : made.notes) say("note", note);
  json.end_array();
}

}  // namespace

std::string grid_json(const SurveyedLake& made, const GridFigures& figures) {
  const CrossValidation& check = made.surface.check;
  JsonText json;
  json.begin_object();
  json.key("schema").integer(1);
  json.key("area_m2").number(figures.area.value(), 0);
  json.key("volume_m3").number(figures.volume.value(), 0);
  json.key("mean_depth_m").number(figures.mean_depth.value(), 2);
  json.key("max_depth_m").number(figures.max_depth.value(), 2);
  json.key("flat_share").number(made.surface.flat_share, 4);
  json.key("cross_validation").begin_object();
  const auto figure = [&](const char* name, Metres value) {
    json.key(name);
    check.all.count > 0 ? json.number(value.value(), 2) : json.null();
  };
  figure("rmse_m", check.all.rmse);
  figure("bias_m", check.all.bias);
  figure("p95_m", check.all.p95);
  json.key("folds").integer(check.folds);
  json.end_object();
  json.key("rejected").begin_object();
  for (const Rejection reason : kRejections) {
    json.key(text(reason)).integer(static_cast<long long>(made.cleaned.count(reason)));
  }
  json.end_object();
  write_warnings(json, made);
  json.end_object();
  return json.str() + "\n";
}

std::map<std::string, std::string> grid_metadata(const LakeFile& file, const SurveyedLake& made,
                                                 const GridFigures& figures) {
  const CrossValidation& check = made.surface.check;
  std::map<std::string, std::string> items{
      {"AREA_M2", fmt::format("{:.0f}", figures.area.value())},
      {"VOLUME_M3", fmt::format("{:.0f}", figures.volume.value())},
      {"MAX_DEPTH_M", fmt::format("{:.2f}", figures.max_depth.value())},
      {"MEAN_DEPTH_M", fmt::format("{:.2f}", figures.mean_depth.value())},
      {"DEEPEST_DATUM_M", fmt::format("{:.2f}", made.surface.deepest_datum.value())},
      {"FLAT_SHARE", fmt::format("{:.4f}", made.surface.flat_share)},
      {"DEPTHS_BELOW", file.level.survey ? fmt::format("surveyed surface, {:.2f} m", file.level.survey->value())
                                         : std::string("surveyed surface")},
      {"CAUTION", kCaution}};
  if (!file.source.empty()) items["SOURCE"] = file.source;
  if (!file.licence.empty()) items["LICENCE"] = file.licence;
  if (!file.surveyed.empty()) items["SURVEYED"] = file.surveyed;
  for (const Rejection reason : kRejections) {
    items["REJECTED_" + key_of(text(reason))] = std::to_string(made.cleaned.count(reason));
  }
  if (check.all.count == 0) return items;
  items["CROSS_VALIDATION_RMSE_M"] = fmt::format("{:.2f}", check.all.rmse.value());
  items["CROSS_VALIDATION_BIAS_M"] = fmt::format("{:.2f}", check.all.bias.value());
  items["CROSS_VALIDATION_P95_M"] = fmt::format("{:.2f}", check.all.p95.value());
  items["CROSS_VALIDATION_FOLDS"] = std::to_string(check.folds);
  for (const HeldBackByDepth& each : check.by_depth) {
    items[fmt::format("CROSS_VALIDATION_RMSE_M_{:05.1f}_TO_{:05.1f}", each.from.value(), each.to.value())] =
        fmt::format("{:.2f}", each.result.rmse.value());
  }
  return items;
}

std::string rejected_csv(const SurveyedLake& made) {
  std::string out = "lon,lat,depth_m,file,number,reason\n";
  for (const Rejected& each : made.cleaned.rejected) {
    const LonLat at = made.projection.to_lonlat(each.sounding.at);
    const auto file = static_cast<std::size_t>(each.sounding.file);
    out += fmt::format("{:.6f},{:.6f},{:.2f},\"{}\",{},{}\n", at.lon.degrees, at.lat.degrees,
                       static_cast<double>(each.sounding.depth.value()),
                       file < made.sources.size() ? made.sources[file].file : "", each.number + 1, text(each.reason));
  }
  return out;
}

}  // namespace castplan
