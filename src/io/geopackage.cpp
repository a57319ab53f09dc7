// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/io/geopackage.hpp"

#include <cpl_conv.h>
#include <cpl_string.h>
#include <cpl_vsi.h>
#include <fmt/format.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include <atomic>
#include <memory>
#include <optional>

#include "castplan/geo/error.hpp"
#include "io/gdal.hpp"

namespace castplan {
namespace {

/// GDAL takes the date of a change from here, in this thread alone; what stood there comes back.
class FixedDate {
 public:
  explicit FixedDate(std::string_view date) {
    const char* before = CPLGetThreadLocalConfigOption(kName, nullptr);
    if (before != nullptr) before_ = before;
    CPLSetThreadLocalConfigOption(kName, std::string(date).c_str());
  }
  ~FixedDate() { CPLSetThreadLocalConfigOption(kName, before_ ? before_->c_str() : nullptr); }
  FixedDate(const FixedDate&) = delete;
  FixedDate& operator=(const FixedDate&) = delete;

 private:
  static constexpr const char* kName = "OGR_CURRENT_DATE";
  std::optional<std::string> before_;
};

struct FreeReference {
  void operator()(void* reference) const { OSRRelease(reference); }
};
struct FreeShape {
  void operator()(void* shape) const { OGR_G_DestroyGeometry(shape); }
};
struct FreeRow {
  void operator()(void* row) const { OGR_F_Destroy(row); }
};
struct FreeColumn {
  void operator()(void* column) const { OGR_Fld_Destroy(column); }
};
struct FreeList {
  void operator()(char** list) const { CSLDestroy(list); }
};
using Shape = std::unique_ptr<void, FreeShape>;
using List = std::unique_ptr<char*, FreeList>;

List list_of(const std::vector<std::string>& entries) {
  char** list = nullptr;
  for (const std::string& entry : entries) list = CSLAddString(list, entry.c_str());
  return List(list);
}

OGRwkbGeometryType type_of(ShapeType shape) {
  switch (shape) {
    case ShapeType::point:
      return wkbPoint;
    case ShapeType::multi_point:
      return wkbMultiPoint;
    case ShapeType::multi_line:
      return wkbMultiLineString;
    case ShapeType::multi_polygon:
      return wkbMultiPolygon;
    case ShapeType::none:
      break;
  }
  return wkbNone;
}

Shape path_of(const Line& path, OGRwkbGeometryType type) {
  Shape out(OGR_G_CreateGeometry(type));
  for (const XY place : path) OGR_G_AddPoint_2D(out.get(), place.x, place.y);
  return out;
}

Shape part_of(XY place) {
  Shape out(OGR_G_CreateGeometry(wkbPoint));
  OGR_G_AddPoint_2D(out.get(), place.x, place.y);
  return out;
}

Shape part_of(const Line& line) { return path_of(line, wkbLineString); }

Shape part_of(const Polygon& polygon) {
  Shape out(OGR_G_CreateGeometry(wkbPolygon));
  OGR_G_AddGeometryDirectly(out.get(), path_of(polygon.outer, wkbLinearRing).release());
  for (const Ring& hole : polygon.holes) {
    OGR_G_AddGeometryDirectly(out.get(), path_of(hole, wkbLinearRing).release());
  }
  return out;
}

Shape shape_of(const Geometry& geometry, ShapeType type) {
  return std::visit(
      [&](const auto& parts) {
        if (type == ShapeType::point) return parts.empty() ? Shape() : part_of(parts.front());
        Shape out(OGR_G_CreateGeometry(type_of(type)));
        for (const auto& part : parts) OGR_G_AddGeometryDirectly(out.get(), part_of(part).release());
        return parts.empty() ? Shape() : std::move(out);
      },
      geometry);
}

class Package {
 public:
  Package(const std::string& name, const GdalMessages& messages) : messages_(messages) {
    GDALDriverH driver = GDALGetDriverByName("GPKG");
    if (driver == nullptr) throw OutputError("GeoPackage: GDAL was built without its GeoPackage driver (SQLite)");
    data_.reset(GDALCreate(driver, name.c_str(), 0, 0, 0, GDT_Unknown, list_of({"VERSION=1.2"}).get()));
    check(data_ != nullptr, "cannot be made");
    reference_.reset(OSRNewSpatialReference(nullptr));
    check(OSRImportFromEPSG(reference_.get(), 4326) == OGRERR_NONE, "EPSG:4326 is not known");
    OSRSetAxisMappingStrategy(reference_.get(), OAMS_TRADITIONAL_GIS_ORDER);
  }

  void add(const Table& table) {
    std::vector<std::string> options{"FID=fid", "IDENTIFIER=" + table.title, "DESCRIPTION=" + table.description};
    const bool has_shape = table.shape != ShapeType::none;
    if (has_shape) {
      options.insert(options.end(), {"GEOMETRY_NAME=geom", "SPATIAL_INDEX=YES"});
    } else {
      options.emplace_back("ASPATIAL_VARIANT=GPKG_ATTRIBUTES");
    }
    OGRLayerH layer = GDALDatasetCreateLayer(data_.get(), table.name.c_str(), has_shape ? reference_.get() : nullptr,
                                             type_of(table.shape), list_of(options).get());
    check(layer != nullptr, "table " + table.name + " cannot be made");
    for (const TableColumn& column : table.columns) add_column(layer, column);
    for (const TableRow& row : table.rows) add_row(layer, table, row);
  }

  void close() {
    GDALFlushCache(data_.get());
    check(true, "cannot be written");
    data_.reset();
  }

 private:
  void check(bool good, const std::string& what) const {
    if (!good || messages_.failed()) throw OutputError("GeoPackage: " + what + messages_.in_brackets());
  }

  void add_column(OGRLayerH layer, const TableColumn& column) const {
    const OGRFieldType type = column.type == ColumnType::real      ? OFTReal
                              : column.type == ColumnType::text    ? OFTString
                              : column.type == ColumnType::boolean ? OFTInteger
                                                                   : OFTInteger64;
    const std::unique_ptr<void, FreeColumn> made(OGR_Fld_Create(column.name.c_str(), type));
    if (column.type == ColumnType::boolean) OGR_Fld_SetSubType(made.get(), OFSTBoolean);
    check(OGR_L_CreateField(layer, made.get(), FALSE) == OGRERR_NONE, "column " + column.name + " cannot be made");
  }

  void add_row(OGRLayerH layer, const Table& table, const TableRow& row) const {
    const std::unique_ptr<void, FreeRow> made(OGR_F_Create(OGR_L_GetLayerDefn(layer)));
    int at = 0;
    for (const TableValue& value : row.values) {
      if (const auto* real = std::get_if<double>(&value)) {
        OGR_F_SetFieldDouble(made.get(), at, *real);
      } else if (const auto* whole = std::get_if<long long>(&value)) {
        OGR_F_SetFieldInteger64(made.get(), at, *whole);
      } else if (const auto* truth = std::get_if<bool>(&value)) {
        OGR_F_SetFieldInteger(made.get(), at, *truth ? 1 : 0);
      } else if (const auto* text = std::get_if<std::string>(&value)) {
        OGR_F_SetFieldString(made.get(), at, text->c_str());
      } else {
        OGR_F_SetFieldNull(made.get(), at);
      }
      ++at;
    }
    if (table.shape != ShapeType::none) {
      OGR_F_SetGeometryDirectly(made.get(), shape_of(row.shape, table.shape).release());
    }
    check(OGR_L_CreateFeature(layer, made.get()) == OGRERR_NONE, "a row of " + table.name + " cannot be written");
  }

  const GdalMessages& messages_;
  Dataset data_;
  std::unique_ptr<void, FreeReference> reference_;
};

/// A name in GDAL's memory, and nothing left under it.
struct Passing {
  std::string name;
  Passing() {
    static std::atomic<unsigned> number{0};
    name = fmt::format("/vsimem/castplan_{}.gpkg", number++);
  }
  ~Passing() {
    const GdalMessages quiet;
    for (const char* end : {"", "-journal", "-wal", "-shm"}) VSIUnlink((name + end).c_str());
  }
  Passing(const Passing&) = delete;
  Passing& operator=(const Passing&) = delete;
};

}  // namespace

std::string geopackage(const std::vector<Table>& tables, std::string_view date) {
  const FixedDate fixed_date(date);
  const GdalMessages messages;
  const Passing file;
  Package package(file.name, messages);
  for (const Table& table : tables) package.add(table);
  package.close();
  std::string bytes = taken_bytes(file.name);
  if (bytes.empty()) throw OutputError("GeoPackage: no bytes" + messages.in_brackets());
  return bytes;
}

}  // namespace castplan
