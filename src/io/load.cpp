// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/load.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <set>

#include "castplan/geo/error.hpp"
#include "io/gdal.hpp"
#include "io/lake_level.hpp"
#include "io/layers.hpp"
#include "io/sounding_readers.hpp"

namespace castplan {
namespace {

/// A file that the lake file names, and by which key.
struct Named {
  std::string key;
  std::string path;
  enum Kind { raster, vector, table } kind;
};

std::vector<Named> named_files(const LakeFile& file) {
  std::vector<Named> out;
  if (!file.raster.path.empty()) out.push_back({"depth.raster", file.raster.path, Named::raster});
  for (const auto& one : file.soundings) {
    const bool text = is_read_as_text(one.path);
    out.push_back({"depth.soundings.file", one.path, text ? Named::table : Named::vector});
  }
  for (const auto& one : file.contours) out.push_back({"depth.contours.file", one.path, Named::vector});
  if (file.shoreline) out.push_back({"shoreline.file", file.shoreline->path, Named::vector});
  for (const auto& layer : file.structure) out.push_back({"structure.file", layer.file.path, Named::vector});
  for (const auto& launch : file.launches) {
    if (launch.file) out.push_back({"launch.file", launch.file->path, Named::vector});
  }
  for (const auto& closure : file.closures) out.push_back({"closure.file", closure.file.path, Named::vector});
  const auto& conditions = file.conditions;
  for (const auto& [key, path] :
       {std::pair{"plants", conditions.plants}, std::pair{"water_temps", conditions.water_temps},
        std::pair{"air_temps", conditions.air_temps}, std::pair{"profile", conditions.profile},
        std::pair{"wind", conditions.wind}}) {
    if (!path.empty()) out.push_back({fmt::format("conditions.{}", key), path, Named::table});
  }
  return out;
}

/// The path as the lake file wrote it.
std::string as_written(const std::string& path, const LakeFile& file) {
  const auto folder = std::filesystem::path(file.path).parent_path();
  if (folder.empty()) return path;
  const std::string start = (folder / "").string();
  return path.rfind(start, 0) == 0 ? path.substr(start.size()) : path;
}

void check_present(const std::vector<Named>& files, const LakeFile& file) {
  for (const Named& one : files) {
    std::error_code ignored;
    if (is_gdal_name(one.path) || std::filesystem::exists(one.path, ignored)) continue;
    if (file.path.empty()) {
      throw InputError(fmt::format("{}: no such file; check the name and the folder", one.path));
    }
    throw InputError(fmt::format("{}: {} = \"{}\": no such file; paths are relative to the lake file's folder",
                                 file_name(file.path), one.key, as_written(one.path, file)));
  }
}

std::vector<InputFile> hashed(const std::vector<Named>& files, const LakeFile& file) {
  std::set<std::string> paths;
  if (!file.path.empty()) paths.insert(file.path);
  for (const Named& one : files) {
    if (one.kind == Named::table) {
      paths.insert(one.path);
      continue;
    }
    for (const std::string& part :
         files_of(one.path, file_name(one.path), one.kind == Named::raster ? DataKind::raster : DataKind::vector)) {
      paths.insert(std::filesystem::path(part).string());
    }
  }
  std::vector<InputFile> out;
  for (const std::string& path : paths) out.push_back({file_name(path), sha256_of(path)});
  std::sort(out.begin(), out.end(), [](const InputFile& a, const InputFile& b) {
    return std::tie(a.name, a.sha256) < std::tie(b.name, b.sha256);
  });
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

bool any_land_of_unknown_height(const Grid<Metres32>& depth) {
  const auto cells = depth.cells();
  return std::any_of(cells.begin(), cells.end(),
                     [](Metres32 cell) { return std::isinf(cell.value()) && cell.value() < 0; });
}

/// "shore.gpkg", or what else the shore was taken from.
std::string shore_name(const LakeFile& file) {
  return file.shoreline ? file_name(file.shoreline->path) : std::string("the shoreline");
}

void check_water_left(const Grid<Metres32>& depth, const LakeFile& file) {
  const auto cells = depth.cells();
  if (std::any_of(cells.begin(), cells.end(), [](Metres32 cell) { return cell.value() > 0; })) return;
  throw InputError(
      fmt::format("{}: no water of {} lies inside this shoreline; check that both are the same lake and that "
                  "each states the right CRS",
                  shore_name(file), file.raster.shown));
}

constexpr Metres kNoDepth(0.1);  ///< a lake with nothing deeper has no floor to plan on; design choice

/// A terrain model often shows a lake's surface, flat, where a floor is expected.
void check_floor(const Lake& lake, const LakeFile& file) {
  if (lake.max_depth >= kNoDepth) return;
  throw InputError(fmt::format(
      "{}: its deepest water is {:.3f} m, so that there is no floor to plan on{}; if it shows the lake's surface, as "
      "terrain models do, find one that shows the floor; else check the unit and the level",
      file.raster.shown, lake.max_depth.value(),
      file.raster.surface ? fmt::format(" (surface {:.2f} m)", file.raster.surface->value()) : ""));
}

Polygons clipped(Grid<Metres32>& depth, const Polygons& shore, const LakeFile& file, std::vector<std::string>& notes) {
  Polygons outline = clip_to_shoreline(depth, shore);
  check_water_left(depth, file);
  if (outline.size() < shore.size()) {
    notes.push_back(fmt::format("{}: {} of its {} polygons hold no water of {} and are left out", shore_name(file),
                                shore.size() - outline.size(), shore.size(), file.raster.shown));
  }
  return outline;
}

void set_error(std::optional<Metres> found, const LakeFile& file, Lake& lake, std::vector<std::string>& notes) {
  const std::optional<Metres> known = file.depth_error ? file.depth_error : found;
  if (known) {
    lake.depth_error = *known;
    lake.depth_error_known = true;
    return;
  }
  notes.push_back(fmt::format("the error of the depths is not given (error under [depth]); {:.1f} m is assumed",
                              lake.depth_error.value()));
}

void note_cut(const Lake& lake, const LakeFile& file, std::vector<std::string>& notes) {
  if (!(lake.cut_share > 0)) return;
  notes.push_back(
      fmt::format("{:.0f} % of the water's edge is where the data end, not shore; nothing is said of what "
                  "lies beyond",
                  std::ceil(100 * lake.cut_share)));
  if (file.raster.sense == Sense::elevation && !file.shoreline) {
    notes.push_back(fmt::format(
        "{}: all ground below {:.2f} m is taken for water, as far as the data reach; where that is land, give the "
        "lake's shoreline",
        file.raster.shown, file.raster.surface->value()));
  }
}

Lake lake_of(DepthRaster raster, const LakeFile& file, std::vector<std::string>& notes) {
  Polygons outline;
  if (file.shoreline) {
    outline = clipped(raster.depth, read_polygons(*file.shoreline, raster.projection), file, notes);
  } else {
    tell_shore_from_cut(raster.depth, file.raster.level_offset, raster.extent);
    if (any_land_of_unknown_height(raster.depth)) {
      notes.push_back(fmt::format("{}: no shoreline given, so no data beside shallow or rising water is taken as shore",
                                  file.raster.shown));
    }
  }
  Lake lake = make_lake(raster.projection, std::move(raster.depth), std::move(outline));
  check_floor(lake, file);
  set_error(std::nullopt, file, lake, notes);
  note_cut(lake, file, notes);
  return lake;
}

/// Moves the floor to today's level. Beyond the shore nothing is known of heights, so a risen lake keeps its shore.
void move_level(Grid<Metres32>& depth, double offset, const LakeFile& file, std::vector<std::string>& notes) {
  if (offset == 0) return;
  for (Metres32& cell : depth.cells()) {
    cell = Metres32(static_cast<float>(static_cast<double>(cell.value()) + offset));
  }
  if (offset < 0) return;
  notes.push_back(fmt::format(
      "{}: gives no heights on land, so the shore stays where it was surveyed though the water is {:.2f} m higher",
      file.raster.shown, offset));
}

Lake lake_of(GriddedDepth gridded, const LakeFile& file, std::vector<std::string>& notes) {
  const double moved = file.raster.level_offset.value();
  move_level(gridded.depth, moved, file, notes);
  Polygons shore = std::move(gridded.shoreline);
  if (shore.empty() && file.shoreline) shore = read_polygons(*file.shoreline, gridded.projection);
  if (shore.empty()) {
    throw InputError(
        fmt::format("{}: no shoreline; give one: [shoreline] with file, or a contour of depth 0", file.raster.shown));
  }
  Polygons outline = clipped(gridded.depth, shore, file, notes);
  if (moved < 0) outline.clear();  // the water has left it: its zero line is traced
  Lake lake = make_lake(gridded.projection, std::move(gridded.depth), std::move(outline));
  check_floor(lake, file);
  set_error(gridded.error, file, lake, notes);
  if (!file.depth_error) lake.error = std::move(gridded.error_of_cell);
  note_cut(lake, file, notes);
  return lake;
}

/// "run1.csv", "run1.csv and 2 more": what the depths come from.
std::string sources_shown(const LakeFile& file) {
  const std::size_t count = file.soundings.size() + file.contours.size();
  if (count == 0) return "the depth grid";
  const DepthSourceOptions& first =
      file.soundings.empty() ? static_cast<const DepthSourceOptions&>(file.contours.front()) : file.soundings.front();
  const std::string name = first.shown.empty() ? file_name(first.path) : first.shown;
  return count == 1 ? name : fmt::format("{} and {} more", name, count - 1);
}

/// Everything that a lake file points to besides the depths.
void load_rest(const std::vector<Named>& files, const LakeFile& file, LoadedLake& out) {
  load_structure(file, out);
  load_launches(file, out);
  load_closures(file, out);
  load_plants(file, out);
  load_water_temps(file, out);
  load_air_temps(file, out);
  load_profile(file, out);
  load_wind(file, out);
  out.inputs = hashed(files, file);
  out.surface_text = surface_text(file);
}

}  // namespace

LoadedLake load_lake(const LakeFile& given) {
  LakeFile file = given;
  if (file.raster.path.empty()) {
    throw InputError(fmt::format("{}: has soundings or contours and no depth raster; make one of them first",
                                 file.path.empty() ? "the lake" : file_name(file.path)));
  }
  if (file.raster.shown.empty()) file.raster.shown = file_name(file.raster.path);
  const std::vector<Named> files = named_files(file);
  check_present(files, file);
  DepthRaster raster = read_depth_raster(file.raster);
  LoadedLake out;
  out.notes = raster.notes;
  out.lake = lake_of(std::move(raster), file, out.notes);
  load_rest(files, file, out);
  return out;
}

LoadedLake lake_from_depth(const LakeFile& given, GriddedDepth gridded) {
  LakeFile file = given;
  file.raster.shown = sources_shown(file);
  const std::vector<Named> files = named_files(file);
  check_present(files, file);
  LoadedLake out;
  out.notes = std::move(gridded.notes);
  out.lake = lake_of(std::move(gridded), file, out.notes);
  load_rest(files, file, out);
  return out;
}

}  // namespace castplan
