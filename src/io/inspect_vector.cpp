// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include <algorithm>
#include <cctype>

#include "castplan/geo/error.hpp"
#include "io/depth_field.hpp"
#include "io/gdal.hpp"
#include "io/inspect_depths.hpp"
#include "io/inspect_parts.hpp"

namespace castplan {
namespace {

/// What one pass over the records found.
struct Pass {
  std::vector<FieldTally> fields;
  std::size_t without_geometry = 0;
  std::size_t invalid = 0;
  long long first_invalid = -1;
};

Pass pass_over(OGRLayer& layer) {
  Pass out;
  const OGRFeatureDefn& defn = *layer.GetLayerDefn();
  for (int i = 0; i < defn.GetFieldCount(); ++i) {
    out.fields.emplace_back(defn.GetFieldDefn(i)->GetNameRef(),
                            OGRFieldDefn::GetFieldTypeName(defn.GetFieldDefn(i)->GetType()));
  }
  layer.ResetReading();
  while (const OGRFeatureUniquePtr feature{layer.GetNextFeature()}) {
    for (int i = 0; i < defn.GetFieldCount(); ++i) {
      if (!feature->IsFieldSetAndNotNull(i)) continue;
      out.fields[static_cast<std::size_t>(i)].add(feature->GetFieldAsString(i));
    }
    const OGRGeometry* shape = feature->GetGeometryRef();
    if (shape == nullptr || shape->IsEmpty()) {
      ++out.without_geometry;
    } else if (OGR_GT_IsSubClassOf(wkbFlatten(shape->getGeometryType()), wkbSurface) != 0 ||
               wkbFlatten(shape->getGeometryType()) == wkbMultiPolygon) {
      if (shape->IsValid() != 0) continue;
      if (out.invalid++ == 0) out.first_invalid = feature->GetFID();
    }
  }
  return out;
}

void judge_records(const LayerFacts& layer, const Pass& pass, const std::string& where, Inspection& out) {
  if (layer.records == 0) {
    out.findings.push_back({Severity::error, "empty", fmt::format("{}: holds no records", where),
                            "another file, or layer = \"...\" beside the file's name"});
    return;
  }
  if (pass.without_geometry > 0) {
    const bool all = static_cast<long long>(pass.without_geometry) == layer.records;
    out.findings.push_back({all ? Severity::error : Severity::warning, "no-geometry",
                            fmt::format("{}: {} of {} records have no geometry{}", where, pass.without_geometry,
                                        layer.records, all ? "" : " and are passed over"),
                            ""});
  }
  if (pass.invalid > 0) {
    out.findings.push_back({Severity::warning, "invalid-geometry",
                            fmt::format("{}: {} of {} polygons cross or touch themselves (the first is record {}); "
                                        "they are mended when read, which may change their area",
                                        where, pass.invalid, layer.records, pass.first_invalid),
                            "ogr2ogr -makevalid"});
  }
}

void judge_depths(const LayerFacts& layer, const std::string& where, Inspection& out) {
  const auto at = std::find_if(layer.fields.begin(), layer.fields.end(),
                               [&](const FieldFacts& field) { return field.name == layer.depth_field; });
  if (at == layer.fields.end() || layer.records == 0) return;
  const FieldFacts& field = *at;
  const std::string hint = unit_hint(field.name);
  const bool elevations = std::tolower(static_cast<unsigned char>(field.name.front())) == 'e';
  out.findings.push_back(
      {Severity::note, "depth-field",
       fmt::format("{}: field {} looks like {}: {} to {}, {} values{}{}", where, field.name,
                   elevations ? "elevations" : "depths", *field.low, *field.high, field.levels,
                   *field.high <= 0 && !elevations ? ", negative down" : "",
                   hint.empty() ? "; its unit is not stated" : fmt::format("; its name suggests {}", hint)),
       fmt::format("field = \"{}\" and unit = \"{}\"", field.name, hint.empty() ? "..." : hint)});
  const auto missing = layer.records - static_cast<long long>(field.values);
  if (missing > 0) {
    out.findings.push_back(
        {Severity::warning, "depth-missing",
         fmt::format("{}: {} of {} records have no number in {}", where, missing, layer.records, field.name),
         "fill them in, or take the records out"});
  }
  if (*field.low < 0 && *field.high > 0) {
    out.findings.push_back(
        {Severity::warning, "mixed-signs",
         fmt::format("{}: {} holds depths of both signs, {} to {}", where, field.name, *field.low, *field.high),
         "sense = \"depth\" or \"height\", and a look at the records of the other sign"});
  }
}

void add_layer(OGRLayer& layer, const std::string& where, FileFacts& facts, Inspection& out) {
  const Pass pass = pass_over(layer);
  LayerFacts one;
  one.name = layer.GetName();
  one.geometry = OGRGeometryTypeToName(layer.GetGeomType());
  one.records = layer.GetFeatureCount();
  for (const FieldTally& tally : pass.fields) one.fields.push_back(tally.facts());
  one.depth_field = depth_field(one.fields);
  judge_records(one, pass, where, out);
  if (facts.key.empty()) judge_depths(one, where, out);  // a layer in a lake file has its job already
  facts.layers.push_back(std::move(one));
}

void place_of(OGRLayer& layer, const std::string& crs, FileFacts& facts, Inspection& out) {
  OGREnvelope box;
  if (layer.GetExtent(&box) != OGRERR_NONE) return;
  const auto projection = inspect_crs(layer.GetSpatialRef(), crs, facts, out);
  if (!projection) return;
  inspect_place(
      *projection,
      [box](XY share) {
        return XY{box.MinX + share.x * (box.MaxX - box.MinX), box.MaxY - share.y * (box.MaxY - box.MinY)};
      },
      facts, out);
}

std::vector<OGRLayer*> layers_to_read(GDALDataset& dataset, const std::string& wanted) {
  std::vector<OGRLayer*> out;
  for (int i = 0; i < dataset.GetLayerCount(); ++i) {
    OGRLayer* layer = dataset.GetLayer(i);
    if (!wanted.empty() ? layer->GetName() == wanted : dataset.GetLayerCount() == 1 || !is_gpx_twin(*layer)) {
      out.push_back(layer);
    }
  }
  return out;
}

void judge_layers(GDALDataset& dataset, const std::vector<OGRLayer*>& layers, const VectorOptions& options,
                  const FileFacts& facts, Inspection& out) {
  std::string names;
  std::size_t filled = 0;
  for (int i = 0; i < dataset.GetLayerCount(); ++i) {
    names += (names.empty() ? "" : ", ") + std::string(dataset.GetLayer(i)->GetName());
  }
  for (OGRLayer* layer : layers) filled += layer->GetFeatureCount() > 0 ? 1 : 0;
  if (layers.empty()) {
    throw InputError(
        fmt::format("{}: no layer {}; it has {}", facts.name, options.layer, names.empty() ? "none" : names));
  }
  if (filled < 2) return;
  out.findings.push_back({facts.key.empty() ? Severity::note : Severity::error, "several-layers",
                          fmt::format("{}: has several layers: {}", facts.name, names),
                          "layer = \"...\" beside the file's name"});
}

}  // namespace

bool is_gpx_twin(OGRLayer& layer) {
  const std::string name = layer.GetName();
  return name == "route_points" || name == "track_points";
}

void inspect_vector(const VectorOptions& options, const std::string& key, Inspection& out) {
  FileFacts facts;
  facts.name = file_name(options.path);
  const Dataset opened = open_dataset(options.path, facts.name, DataKind::vector);
  const GdalMessages messages;
  auto& dataset = *static_cast<GDALDataset*>(opened.get());
  facts.path = options.path;
  facts.key = key;
  facts.kind = "vector";
  facts.format = dataset.GetDriver()->GetMetadataItem(GDAL_DMD_LONGNAME);
  const auto layers = layers_to_read(dataset, options.layer);
  judge_layers(dataset, layers, options, facts, out);
  bool placed = false;
  for (OGRLayer* layer : layers) {
    const bool alone = layers.size() == 1;
    if (!alone && layer->GetFeatureCount() == 0) continue;
    if (!placed) place_of(*layer, options.crs, facts, out);
    placed = true;
    add_layer(*layer, alone ? facts.name : fmt::format("{}, layer {}", facts.name, layer->GetName()), facts, out);
  }
  if (facts.layers.empty()) {
    out.findings.push_back({Severity::error, "empty", fmt::format("{}: holds no records", facts.name), ""});
  }
  out.files.push_back(std::move(facts));
}

void inspect_vector_file(const InspectOptions& options, Inspection& out) {
  inspect_vector({options.path, "", options.crs}, "", out);
}

}  // namespace castplan
