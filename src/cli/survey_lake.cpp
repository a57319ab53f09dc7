// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/survey_lake.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "castplan/geo/error.hpp"
#include "castplan/geo/planar.hpp"
#include "cli/survey_shore.hpp"

namespace castplan {

namespace {

constexpr double kMostCells = 400e6;  // 1.6 GB a grid
constexpr Metres kAgree(0.5);         // more than this, and than a share of the depth, is no scatter of soundings;
constexpr double kAgreeShare = 0.03;  // design choice
constexpr int kRim = 2;               // cells of land round the lake

/// Reads all contours onto a plane; the sources only where they are wanted.
std::vector<DepthContour> contours_on(const LakeFile& file, const Projection& projection,
                                      std::vector<DepthSource>* sources) {
  std::vector<DepthContour> all;
  for (std::size_t i = 0; i < file.contours.size(); ++i) {
    ContoursRead read = read_contours(file.contours[i], projection, static_cast<int>(file.soundings.size() + i));
    all.insert(all.end(), std::make_move_iterator(read.contours.begin()), std::make_move_iterator(read.contours.end()));
    if (sources != nullptr) sources->push_back(std::move(read.source));
  }
  return all;
}

std::vector<Sounding> soundings_on(const LakeFile& file, const Projection& projection,
                                   std::vector<DepthSource>& sources) {
  std::vector<Sounding> all;
  int track = 0;
  for (std::size_t i = 0; i < file.soundings.size(); ++i) {
    SoundingsRead read = read_soundings(file.soundings[i], projection, static_cast<int>(i), track);
    track += read.source.tracks;
    all.insert(all.end(), read.soundings.begin(), read.soundings.end());
    sources.push_back(std::move(read.source));
  }
  return all;
}

Polygons shoreline_on(const LakeFile& file, const Projection& projection, const std::vector<DepthContour>& contours) {
  if (file.shoreline) return read_polygons(*file.shoreline, projection);
  Polygons shore = zero_contours(contours);
  if (!shore.empty()) return shore;
  throw InputError(
      fmt::format("{}: no shoreline: no file is named for it and no contour of depth 0 is closed; depths alone do not "
                  "say where the water ends; give one: --shoreline FILE, or [shoreline] with file = \"...\"",
                  file.path.empty() ? "the survey" : file.path));
}

/// About the waters that hold depths. Where the shoreline is one area, that one; the depths are not read then.
Projection plane_for(const LakeFile& file) {
  const Projection degrees = Projection::geographic();
  std::vector<DepthContour> contours;
  if (!file.shoreline) contours = contours_on(file, degrees, nullptr);
  Polygons shore = shoreline_on(file, degrees, contours);
  if (file.shoreline && shore.size() > 1) {
    std::vector<DepthSource> sources;
    shore = with_depths(std::move(shore), soundings_on(file, degrees, sources), contours_on(file, degrees, nullptr));
  }
  const Box box = *bounds(shore);
  const auto to_2 = [](double value) { return std::round(value * 100) / 100; };
  return Projection::transverse_mercator({{to_2((box.low.x + box.high.x) / 2)}, {to_2((box.low.y + box.high.y) / 2)}});
}

Frame frame_for(const Polygons& shore, Metres cell) {
  const Box box = *bounds(shore);
  const double side = cell.value();
  const double west = std::floor(box.low.x / side) - kRim, east = std::ceil(box.high.x / side) + kRim;
  const double south = std::floor(box.low.y / side) - kRim, north = std::ceil(box.high.y / side) + kRim;
  if ((east - west) * (north - south) > kMostCells) {
    throw InputError(fmt::format(
        "the grid would have {:.0f} x {:.0f} cells of {:g} m; take larger cells: --cell, or cell = \"...\" under "
        "[depth]; if the lake is smaller than that, its shoreline's CRS is wrong",
        north - south, east - west, side));
  }
  return {{west * side, north * side}, cell, static_cast<int>(north - south), static_cast<int>(east - west)};
}

}  // namespace

Metres usual_cell(SquareMetres water) {
  constexpr std::array kSides = {1.0, 2.0, 5.0, 10.0, 20.0, 50.0};
  const double wanted = std::log(std::sqrt(water.value() / 1e5));
  return Metres(*std::min_element(kSides.begin(), kSides.end(), [&](double a, double b) {
    return std::abs(std::log(a) - wanted) < std::abs(std::log(b) - wanted);
  }));
}

SurveyedLake survey_lake(const LakeFile& file, const std::function<void(std::string_view)>& progress) {
  SurveyedLake out;
  progress("reading soundings and contours");
  out.projection = plane_for(file);
  std::vector<Sounding> soundings = soundings_on(file, out.projection, out.sources);
  const std::vector<DepthContour> contours = contours_on(file, out.projection, &out.sources);
  const Polygons shore = shoreline_on(file, out.projection, contours);
  out.shoreline = with_depths(shore, soundings, contours);
  for (const DepthSource& source : out.sources) {
    out.notes.insert(out.notes.end(), source.notes.begin(), source.notes.end());
  }
  if (out.shoreline.size() < shore.size()) {
    out.notes.push_back(fmt::format("{} of the {} areas of the shoreline hold no depth and are left out",
                                    shore.size() - out.shoreline.size(), shore.size()));
  }
  progress("cleaning soundings");
  out.cleaned = clean_soundings(std::move(soundings), out.shoreline);
  progress("making the depth surface");
  const Metres cell = file.cell.value_or(usual_cell(area(out.shoreline)));
  out.surface = fit_surface(frame_for(out.shoreline, cell), out.shoreline, out.cleaned.kept, contours);
  const Metres apart = out.surface.sounding_rmse;
  if (!contours.empty() && apart > std::max(kAgree, kAgreeShare * out.surface.deepest_datum)) {
    out.notes.push_back(
        fmt::format("soundings and contours do not agree: the surface between them misses the soundings by {:.1f} m "
                    "(root mean square); check unit, level and coordinate system of both, or leave one out",
                    apart.value()));
  }
  return out;
}

LoadedLake lake_of(const LakeFile& file, const std::function<void(std::string_view)>& progress) {
  if (!file.raster.path.empty()) {
    progress("reading the lake");
    return load_lake(file);
  }
  SurveyedLake made = survey_lake(file, progress);
  GriddedDepth gridded{std::move(made.surface.depth), made.projection, std::move(made.shoreline), std::nullopt, {},
                       std::move(made.notes)};
  const CrossValidation& check = made.surface.check;
  if (check.all.count > 0) {
    gridded.error = check.all.rmse;
    gridded.error_of_cell = std::move(made.surface.error);
  }
  if (!made.cleaned.rejected.empty()) {
    gridded.notes.push_back(fmt::format("{} of {} soundings are not used; `castplan grid` says why",
                                        made.cleaned.rejected.size(),
                                        made.cleaned.rejected.size() + made.cleaned.kept.size()));
  }
  gridded.notes.push_back(
      fmt::format("depths are gridded to cells of {:g} m; held-back data differ from them by {:.2f} m (root mean "
                  "square, {} blocks)",
                  gridded.depth.frame().cell.value(), check.all.rmse.value(), check.folds));
  return lake_from_depth(file, std::move(gridded));
}

}  // namespace castplan
