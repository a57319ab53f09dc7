// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "castplan/geo/projection.hpp"
#include "castplan/geo/quantity_text.hpp"
#include "castplan/grid/soundings.hpp"
#include "castplan/io/raster.hpp"

namespace castplan {

/// Columns of a table by the name in its header (any case), or by number from 1. Empty: found by name, or the first
/// three of a table without a header.
struct DepthColumns {
  std::string x{}, y{}, depth{};
  std::string track{};  ///< whatever tells the boat's tracks apart; empty and not found: no tracks
};

/// How to read depths that are points or lines, where the file does not say. What is left empty is found in the file.
struct DepthSourceOptions {
  std::string path{};
  std::string shown{};              ///< the name used in messages; the file's own when empty
  std::string layer{};              ///< empty: the only one
  std::string field{};              ///< attribute that holds the depth; empty: found by name, else Z
  std::string crs{};                ///< only used where the file states none
  std::optional<DepthUnit> unit{};  ///< beats what the file says, with a note
  std::optional<Sense> sense{};     ///< empty: depth, or height where nearly all values are negative
  std::optional<Metres> surface{};  ///< elevation that depths are counted from; needed with Sense::elevation
  Metres level_offset{};            ///< that surface less the one the file counts from; added to depths and heights
};

struct SoundingOptions : DepthSourceOptions {
  DepthColumns columns{};  ///< of tables only; columns.depth and field mean the same
  char separator{};        ///< ',', ';', '\t' or ' '; 0: found
  char decimal{};          ///< '.' or ','; 0: found
  Metres transducer{};     ///< how deep below the surface the instrument measured from; added to every depth
};

struct ContourOptions : DepthSourceOptions {};

/// What a file turned out to be, and how that is known: for reports. Nothing in a file is dropped without a trace here.
struct DepthSource {
  std::string file;       ///< name, never a path
  std::string format;     ///< "text table", "GPX", or GDAL's name for it
  std::string layer;      ///< of GDAL's formats
  std::string separator;  ///< "comma", "semicolon", "tab", "spaces"; of tables only
  char decimal = '.';
  bool header = false;
  DepthColumns columns;   ///< as used: names, numbers where there is no header; depth: the attribute, or "Z"
  std::string unit;       ///< "m", "ft", "US survey foot", "fathom", "as written at each depth"
  std::string unit_from;  ///< how it is known, to follow "unit": "column name DEPTH_FT", "given"
  std::string crs;
  std::string crs_from;
  Sense sense = Sense::depth;
  std::string sense_from;

  struct Unread {
    std::size_t line;  ///< which of what row_name says: line of a table, point of a track from 1, feature of a layer
    std::string why;
  };
  std::string row_name = "line";               ///< "line", "point", "feature"
  std::size_t rows = 0;                        ///< rows, points or features that should hold a depth
  std::size_t used = 0;                        ///< those that gave one
  std::vector<Unread> unread;                  ///< the first few of the others
  std::map<std::string, std::size_t> reasons;  ///< all of the others, by reason without its value
  int tracks = 0;
  Metres shallowest, deepest;  ///< as returned
  LonLat centre{};             ///< of what was read, so that a wrong place is seen
  std::vector<std::string> notes;
};

struct SoundingsRead {
  std::vector<Sounding> soundings;  ///< in the file's order
  DepthSource source;
};

struct ContoursRead {
  std::vector<DepthContour> contours;  ///< in the file's order; rings are closed; depth 0 is the shore, islands too
  DepthSource source;
};

/// Reads depths at points onto the plane of `target`: tables (.csv, .tsv, .txt, .xyz, .dat: separator, decimal mark,
/// header and columns found or told), GPX (a `depth` element of any namespace within a point's extensions, metres
/// unless told), and any layer of points or lines that GDAL reads (depth from an attribute, a number or text such as
/// "10 ft", else from Z). Tables with columns named lon and lat are in WGS 84 degrees unless told; others need a CRS,
/// and all need a unit from the column's name (depth_ft) or the options.
/// Depths are metres below the surface that the options name; values above it are negative and kept. Rows without a
/// number, with the usual fillers for no data, or off the earth are counted in `source` with a reason.
/// file: number for Sounding::file; first_track: number of the first track.
/// Throws InputError: file, what was found, what was expected, what would mend it.
SoundingsRead read_soundings(const SoundingOptions& options, const Projection& target, int file = 0,
                             int first_track = 0);

/// Reads lines of equal depth, and polygons whose every ring is one. Features without a depth are counted in `source`
/// with their attributes' names; so are those that stand above the surface. InputError when no feature has a depth.
ContoursRead read_contours(const ContourOptions& options, const Projection& target, int file = 0);

}  // namespace castplan
