// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include "io/depth_field.hpp"
#include "io/gdal.hpp"
#include "io/inspect_parts.hpp"

namespace castplan {
namespace {

LayerFacts read_columns(OGRLayer& layer) {
  LayerFacts out;
  out.name = layer.GetName();
  out.geometry = OGRGeometryTypeToName(layer.GetGeomType());
  std::vector<FieldTally> tallies;
  const OGRFeatureDefn& defn = *layer.GetLayerDefn();
  for (int f = 0; f < defn.GetFieldCount(); ++f) {
    tallies.emplace_back(defn.GetFieldDefn(f)->GetNameRef(),
                         OGRFieldDefn::GetFieldTypeName(defn.GetFieldDefn(f)->GetType()));
  }
  layer.ResetReading();
  while (const OGRFeatureUniquePtr feature{layer.GetNextFeature()}) {
    ++out.records;
    for (std::size_t f = 0; f < tallies.size(); ++f) {
      const int field = static_cast<int>(f);
      if (feature->IsFieldSetAndNotNull(field)) tallies[f].add(feature->GetFieldAsString(field));
    }
  }
  for (const FieldTally& tally : tallies) out.fields.push_back(tally.facts());
  out.depth_field = depth_field(out.fields);
  return out;
}

}  // namespace

void inspect_table_file(const InspectOptions& options, Inspection& out) {
  FileFacts facts;
  facts.name = file_name(options.path);
  const Dataset opened = open_dataset(options.path, facts.name, DataKind::vector);
  const GdalMessages quiet;
  auto& dataset = *static_cast<GDALDataset*>(opened.get());
  facts.path = options.path;
  facts.kind = "table";
  facts.format = dataset.GetDriver()->GetMetadataItem(GDAL_DMD_LONGNAME);
  for (int i = 0; i < dataset.GetLayerCount(); ++i) {
    OGRLayer& layer = *dataset.GetLayer(i);
    if (is_gpx_twin(layer)) continue;
    LayerFacts one = read_columns(layer);
    if (one.records > 0) facts.layers.push_back(std::move(one));
  }
  if (facts.layers.empty()) {
    out.findings.push_back(
        {Severity::error, "empty", fmt::format("{}: holds no records", facts.name), "a file with soundings in it"});
  } else {
    out.findings.push_back({Severity::note, "table",
                            fmt::format("{}: of a table only the columns are told; whether its places and depths are "
                                        "right is not looked at",
                                        facts.name),
                            ""});
  }
  out.files.push_back(std::move(facts));
}

}  // namespace castplan
