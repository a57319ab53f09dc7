// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cstdlib>

#include "castplan/io/geopackage.hpp"
#include "castplan/write/text.hpp"
#include "write/carried.hpp"
#include "write/plain_text.hpp"
#include "write/records.hpp"

// castplan.gpkg: which rows stand in which table. How a GeoPackage is made is src/io's matter.

namespace castplan {
namespace {

std::string snake(std::string name) {
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

XY degrees(MicroPlace place) {
  const LonLat at = lonlat(place);
  return {at.lon.degrees, at.lat.degrees};
}

Line degrees(const MicroPath& path) {
  Line out;
  for (const MicroPlace place : path) out.push_back(degrees(place));
  return out;
}

Geometry degrees(const GroundShape& shape) {
  if (const auto* points = std::get_if<MicroPath>(&shape)) return degrees(*points);
  if (const auto* lines = std::get_if<std::vector<MicroPath>>(&shape)) {
    Lines out;
    for (const MicroPath& line : *lines) out.push_back(degrees(line));
    return out;
  }
  Polygons out;
  for (const MicroPolygon& polygon : std::get<std::vector<MicroPolygon>>(shape)) {
    Polygon next{degrees(polygon.outer), {}};
    for (const MicroPath& hole : polygon.holes) next.holes.push_back(degrees(hole));
    out.push_back(std::move(next));
  }
  return out;
}

// A table has one type of shape whatever the lake holds. Spots, saddles and narrows are always one point; everything
// else may come in several parts.
ShapeType shape_of(const RecordTable& table, const RecordRow& record) {
  if (std::holds_alternative<std::vector<MicroPath>>(record.shape)) return ShapeType::multi_line;
  if (std::holds_alternative<std::vector<MicroPolygon>>(record.shape)) return ShapeType::multi_polygon;
  const bool single = table.name == "spot" || table.name == "saddle" || table.name == "narrows";
  return single ? ShapeType::point : ShapeType::multi_point;
}

// Mapped things come as the user drew them: points, lines and areas of one kind stand in tables of their own.
ShapeType usual_shape(const RecordTable& table) {
  const std::optional<Kind> kind = kind_named(table.name);
  if (!kind) return table.name == "pass" ? ShapeType::multi_line : ShapeType::point;
  switch (*kind) {
    case Kind::drop_off:
    case Kind::weed_line:
    case Kind::channel:
    case Kind::point:
    case Kind::inside_turn:
      return ShapeType::multi_line;
    case Kind::saddle:
    case Kind::narrows:
      return ShapeType::point;
    case Kind::wood:
    case Kind::rock:
    case Kind::dock:
    case Kind::inflow:
    case Kind::cover:
    case Kind::launch:
      return ShapeType::multi_point;
    case Kind::pool:
    case Kind::hump:
    case Kind::flat:
    case Kind::bay:
    case Kind::weeds:
    case Kind::hazard:
    case Kind::closure:
    case Kind::spawning_ground:
      break;
  }
  return ShapeType::multi_polygon;
}

std::string_view suffix(ShapeType shape) {
  return shape == ShapeType::multi_line ? "lines" : shape == ShapeType::multi_polygon ? "areas" : "points";
}

ColumnType column_type(ValueType type) {
  switch (type) {
    case ValueType::number:
      return ColumnType::real;
    case ValueType::integer:
      return ColumnType::integer;
    case ValueType::boolean:
      return ColumnType::boolean;
    case ValueType::text:
      break;
  }
  return ColumnType::text;
}

// The number that is printed elsewhere, so that files agree to the last digit.
TableValue value_of(const RecordCell& cell) {
  if (!cell.printed) return std::monostate{};
  switch (cell.type) {
    case ValueType::number:
      return std::stod(*cell.printed);
    case ValueType::integer:
      return std::stoll(*cell.printed);
    case ValueType::boolean:
      return *cell.printed == "true";
    case ValueType::text:
      break;
  }
  return *cell.printed;
}

TableRow row_of(const RecordRow& record) {
  TableRow out{degrees(record.shape), {record.id}};
  for (const RecordCell& cell : record.cells) out.values.push_back(value_of(cell));
  return out;
}

void add_tables(std::vector<Table>& out, const RecordTable& records) {
  const ShapeType usual = usual_shape(records);
  for (const ShapeType shape :
       {ShapeType::point, ShapeType::multi_point, ShapeType::multi_line, ShapeType::multi_polygon}) {
    Table table{snake(records.name), records.title, records.what, shape, {{"id", ColumnType::text}}, {}};
    if (shape != usual) {
      table.name += "_" + std::string(suffix(shape));
      table.title += " (" + std::string(suffix(shape)) + ")";
    }
    for (const RecordCell& cell : records.records.front().cells) {
      table.columns.push_back({cell.name, column_type(cell.type)});
    }
    for (const RecordRow& record : records.records) {
      if (shape_of(records, record) == shape) table.rows.push_back(row_of(record));
    }
    if (!table.rows.empty()) out.push_back(std::move(table));
  }
}

// What the whole file carries, a line a row, and the summary as JSON.
Table metadata(const Plan& plan) {
  Table out{"metadata",
            "about this plan",
            "cautions, water surface, source of the depths and conditions; lists in the other tables are JSON",
            ShapeType::none,
            {{"name", ColumnType::text}, {"text", ColumnType::text}},
            {}};
  const auto add = [&](const char* name, const std::string& text) {
    if (!text.empty()) out.rows.push_back({{}, {std::string(name), one_line(text)}});
  };
  add("private", "PRIVATE: EXACT PLACES");
  add("program", program_text());
  add("lake", plan.lake_name);
  add("date", plan.date);
  add("species", plan.profile != nullptr ? plan.profile->name : "");
  for (const std::string& caution : carried_cautions(plan)) add("caution", caution);
  for (const PhaseSpots& phase : plan.phases) {
    add("phase", temperatures_text(plan, phase.phase));
    add("no_spots", phase.why_none);
  }
  add("temperatures", temperatures_text(plan, nullptr));
  add("surface", plan.surface_text);
  add("depths", depth_source_text(plan));
  add("source", plan.source);
  add("licence", plan.licence);
  add("surveyed", plan.surveyed);
  for (const std::string& note : plan.notes) add("note", note);
  for (const std::string& layer : plan.not_assessed) add("not_assessed", layer);
  add("summary", summary_json(plan));
  return out;
}

// "2026-05-02T00:00:00Z" with the thousandths that the format asks for.
std::string stamp(const std::string& date) {
  const std::size_t end = date.find('Z');
  return date.substr(0, end) + ".000Z";
}

}  // namespace

std::string castplan_gpkg(const Plan& plan) {
  std::vector<Table> tables{metadata(plan)};
  for (const RecordTable& records : record_tables(plan)) add_tables(tables, records);
  return geopackage(tables, stamp(plan.document_date));
}

}  // namespace castplan
