// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "castplan/geo/shape.hpp"

namespace castplan {

enum class ColumnType { real, integer, boolean, text };
/// What every row of a table is; none: a table of attributes.
enum class ShapeType { none, point, multi_point, multi_line, multi_polygon };

struct TableColumn {
  std::string name;  ///< [a-z][a-z0-9_]*, other than fid and geom
  ColumnType type{};
};
/// Nothing where it is not known.
using TableValue = std::variant<std::monostate, double, long long, bool, std::string>;

struct TableRow {
  Geometry shape;                  ///< x is longitude, y latitude, degrees of WGS 84; empty: no shape
  std::vector<TableValue> values;  ///< one a column
};

struct Table {
  std::string name;                ///< [a-z][a-z0-9_]*
  std::string title, description;  ///< for people; titles differ from table to table
  ShapeType shape{};
  std::vector<TableColumn> columns;
  std::vector<TableRow> rows;
};

/// The bytes of a GeoPackage 1.2 (OGC 12-128r15): a table each, numbered from 1 in column `fid`, shapes in `geom` with
/// a spatial index, EPSG:4326, longitude first. date: what every table carries as its last change,
/// 2026-05-02T00:00:00.000Z; no clock is read, so equal tables give equal bytes with one version of GDAL and SQLite.
/// Names as above are required; shapes must be of their table's type. Throws OutputError with GDAL's words.
std::string geopackage(const std::vector<Table>& tables, std::string_view date);

}  // namespace castplan
