// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "castplan/geo/projection.hpp"
#include "castplan/io/inspect.hpp"
#include "castplan/io/soundings.hpp"
#include "castplan/io/vector.hpp"
#include "io/series_limits.hpp"

class OGRLayer;
class OGRSpatialReference;

namespace castplan {

/// The parts of `inspect`, one a kind of data. Each adds one FileFacts and its findings, and throws InputError when the
/// file cannot be read at all.

void inspect_lake_file(const InspectOptions& options, Inspection& out);

/// sense: where somebody said it; options.sense counts only then. key: where a lake file names the raster.
void inspect_raster(const RasterOptions& options, std::optional<Sense> sense, const std::string& key, Inspection& out);
void inspect_raster_file(const InspectOptions& options, Inspection& out);

void inspect_vector(const VectorOptions& options, const std::string& key, Inspection& out);
void inspect_vector_file(const InspectOptions& options, Inspection& out);

/// GPX shows the same points twice: as lines and one by one.
bool is_gpx_twin(OGRLayer& layer);

/// Tables and GPX of soundings, through the reader that grids them. key: empty for a bare file. shoreline: as below.
void inspect_table(const SoundingOptions& options, const std::string& key, const Polygons& shoreline, Inspection& out);
void inspect_table_file(const InspectOptions& options, Inspection& out);

/// What `grid` would leave out of soundings, whose places are degrees, and why. shoreline: in degrees; empty where
/// there is none, and then none lies on land.
void inspect_soundings(const std::string& name, std::vector<Sounding> soundings, const Polygons& shoreline,
                       Inspection& out);

/// A dated table of the lake file: every row that cannot be read, gaps, order, and what looks wrong with the figures.
void inspect_series(SeriesKind kind, const std::string& path, const std::string& key, Inspection& out);

/// One row a kind of file, asked in this order: a new kind is a file and a row.
struct InspectKind {
  std::string_view name;
  bool (*is)(const std::string& path);
  void (*look)(const InspectOptions& options, Inspection& out);
};
std::span<const InspectKind> inspect_kinds();

/// The projection that a file states, else the one given; nullopt, with a finding, where neither serves. Fills the
/// facts of the CRS. key: empty for a bare file.
std::optional<Projection> inspect_crs(const OGRSpatialReference* reference, const std::string& given, FileFacts& facts,
                                      Inspection& out);

/// Fills centre and corners, and says what looks wrong with the place. to_plane: from a share of the way across and
/// down the data (0 to 1) to the file's own coordinates.
void inspect_place(const Projection& projection, const std::function<XY(XY)>& to_plane, FileFacts& facts,
                   Inspection& out);

/// Box of one file far from the box of the other: a finding that names the distance.
void inspect_overlap(const FileFacts& depths, const FileFacts& other, Inspection& out);

std::string share_text(double share);

}  // namespace castplan
