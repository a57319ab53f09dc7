// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "castplan/geo/error.hpp"
#include "cli/inspect_report.hpp"
#include "cli/make_plan.hpp"

namespace castplan {

namespace {

// A TOML basic string.
std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (static_cast<unsigned char>(c) < 0x20) {
      out += fmt::format("\\u{:04X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
    } else {
      out += c;
    }
  }
  return out + "\"";
}

std::string path_from(const std::string& folder, const std::string& path) {
  std::error_code none;
  // names that only GDAL understands are no paths
  if (!std::filesystem::exists(path, none)) return quoted(path);
  const auto from = std::filesystem::weakly_canonical(folder.empty() ? "." : folder);
  const auto to = std::filesystem::weakly_canonical(path);
  const auto relative = to.lexically_relative(from);
  return quoted((relative.empty() ? to : relative).generic_string());
}

// What a file says of itself may hold a line end, and a comment must not.
std::string on_one_line(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }, ' ');
  return text;
}

std::string line(const std::string& text, const std::string& comment = "") {
  return comment.empty() ? text + "\n" : fmt::format("{:<32} # {}\n", text, on_one_line(comment));
}

// What nobody could establish: off until a person fills it in.
std::string open_line(const std::string& text, const std::string& comment) { return line("# " + text, comment); }

std::string unit_lines(const RasterFacts& raster) {
  if (raster.unit) return line(fmt::format("unit = {}", quoted(unit_text(*raster.unit))), raster.unit_evidence);
  return open_line("unit = \"m\"", "NEEDED: m, ft or fathom; the file does not say");
}

std::string sense_lines(const RasterFacts& raster, const InspectOptions& options) {
  if (!raster.sense) return open_line("sense = \"depth\"", "depth, height or elevation; the values do not say");
  std::string out = line(fmt::format("sense = {}", quoted(sense_text(*raster.sense))), raster.sense_evidence);
  if (options.surface) {
    out += line(fmt::format("surface = \"{} m\"", options.surface->value()), "as given");
  } else if (*raster.sense == Sense::elevation) {
    out += open_line("surface = \"0 m\"", "NEEDED: elevation of the water");
  }
  return out;
}

std::string crs_lines(const FileFacts& file, const InspectOptions& options) {
  if (file.crs.empty()) return open_line("crs = \"EPSG:...\"", "NEEDED: the file states none");
  if (file.crs_given) return line(fmt::format("crs = {}", quoted(options.crs)), "as given; the file states none");
  return fmt::format("# crs: the file states {}; centre {}\n", on_one_line(file.crs),
                     file.centre ? place_text(*file.centre) : "not known");
}

std::string depth_lines(const FileFacts& file, const InspectOptions& options, const std::string& folder) {
  std::string out = line(fmt::format("raster = {}", path_from(folder, file.path)));
  out += unit_lines(*file.raster) + sense_lines(*file.raster, options) + crs_lines(file, options);
  if (file.raster->undeclared) {
    out += line(fmt::format("nodata = {}", *file.raster->undeclared), "in the file, but not declared");
  }
  return out;
}

std::string origin_lines() {
  return open_line("source = \"...\"", "who surveyed; shown on every output") +
         open_line("licence = \"...\"", "under which terms") + open_line("surveyed = 1994", "year, or date") +
         open_line("error = \"0.3 m\"", "standard error of the depths");
}

std::string level_lines() {
  return "\n# [level]\n" + open_line("survey = \"312.4 m\"", "the water's surface when surveyed") +
         open_line("today = \"312.0 m\"", "and today");
}

bool has_polygons(const FileFacts& file) {
  return std::any_of(file.layers.begin(), file.layers.end(),
                     [](const LayerFacts& layer) { return layer.geometry.find("Polygon") != std::string::npos; });
}

std::string vector_entry(const FileFacts& file, const InspectOptions& options, const std::string& folder,
                         const std::string& mark) {
  std::string out = mark + line(fmt::format("file = {}", path_from(folder, file.path)));
  if (file.layers.size() > 1) out += mark + line("layer = " + quoted(file.layers.front().name), "one of several");
  if (file.crs.empty()) return out + open_line("crs = \"EPSG:...\"", "NEEDED: the file states none");
  if (file.crs_given) out += mark + line(fmt::format("crs = {}", quoted(options.crs)), "as given");
  return out;
}

// Depths of points or lines, which are gridded first.
std::string gridded_from(const FileFacts& file, const InspectOptions& options, const std::string& folder) {
  const LayerFacts& layer = file.layers.front();
  const bool points = layer.geometry.find("Point") != std::string::npos;
  std::string out = fmt::format("\n[[depth.{}]]\n", points ? "soundings" : "contours");
  out += vector_entry(file, options, folder, "");
  if (file.kind != "table") {
    out += fmt::format("field = {}\n", quoted(layer.depth_field));
  } else if (layer.fields.size() == 3) {
    out += fmt::format("columns = {{ x = {}, y = {}, depth = {} }}\n", quoted(layer.fields[0].name),
                       quoted(layer.fields[1].name), quoted(layer.fields[2].name));
  }
  if (options.unit) return out + line(fmt::format("unit = {}", quoted(unit_text(*options.unit))), "as given");
  return out + open_line("unit = \"m\"", "NEEDED where the name of the depths does not say: m, ft or fathom");
}

}  // namespace

std::string drafted_lake_file(const Inspection& found, const InspectOptions& options, const std::string& folder) {
  const FileFacts& file = found.files.front();
  std::string out = fmt::format(
      "# Drafted by `castplan inspect` from {}. Lines with a # in front wait for you: fill them in and take the # "
      "away.\n"
      "# Those marked NEEDED must be there before a plan can be made.\n\n",
      on_one_line(file.name));
  out += line(fmt::format("name = {}", quoted(lake_name_from(file.path))), "from the file's name: write the lake's");
  out += open_line("water = \"lake\"", "lake, reservoir or river");
  out += open_line("holds = [\"muskellunge\"]", "the species in it") + "\n[depth]\n";
  const bool depths = !file.layers.empty() && !file.layers.front().depth_field.empty();
  if (file.raster) {
    out += depth_lines(file, options, folder);
  } else if (depths) {
    out += open_line("cell = \"5 m\"", "of the grid that is made; default: from the lake's area");
  } else {
    out += open_line("raster = \"depth.tif\"", "NEEDED: a depth raster, or [[depth.soundings]], [[depth.contours]]");
    out += open_line("unit = \"m\"", "NEEDED where the raster does not say");
  }
  out += origin_lines();
  if (!file.raster && depths) {
    out += gridded_from(file, options, folder) + "\n# [shoreline]\n" +
           open_line("file = \"shore.gpkg\"", "NEEDED unless a contour of depth 0 is closed");
  }
  out += level_lines();
  if (!file.raster && !depths && has_polygons(file)) {
    out += "\n[shoreline]                      # if these polygons are the lake\n" +
           vector_entry(file, options, folder, "");
  } else if (found.files.size() > 1 && found.files.back().key == "shoreline.file") {
    out += "\n[shoreline]\n" + vector_entry(found.files.back(), options, folder, "");
  }
  return out;
}

}  // namespace castplan
