// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/depth_attribute.hpp"

#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include <algorithm>

#include "castplan/geo/error.hpp"
#include "io/field_words.hpp"
#include "io/number_text.hpp"
#include "io/vector_layer.hpp"

namespace castplan {
namespace {

std::vector<std::string> field_names(OGRLayer& layer) {
  std::vector<std::string> names;
  const OGRFeatureDefn* fields = layer.GetLayerDefn();
  for (int i = 0; i < fields->GetFieldCount(); ++i) names.emplace_back(fields->GetFieldDefn(i)->GetNameRef());
  return names;
}

std::string shown_names(const std::vector<std::string>& names) {
  const std::vector<std::string_view> views(names.begin(), names.end());
  return names.empty() ? "none" : listed(views);
}

int told_field(const std::vector<std::string>& names, const std::string& told, const std::string& shown) {
  for (const bool any_case : {false, true}) {
    for (std::size_t i = 0; i < names.size(); ++i) {
      if (names[i] == told || (any_case && lower(names[i]) == lower(told))) return static_cast<int>(i);
    }
  }
  throw InputError(
      fmt::format("{}: no field {}; it has {}; say which holds the depth: --field NAME (or field = "
                  "\"NAME\" beside the file in the lake file)",
                  shown, told, shown_names(names)));
}

bool has_z(OGRLayer& layer) {
  if (OGR_GT_HasZ(layer.GetGeomType()) != 0) return true;
  layer.ResetReading();
  const OGRFeatureUniquePtr first{layer.GetNextFeature()};
  layer.ResetReading();
  return first && first->GetGeometryRef() != nullptr && first->GetGeometryRef()->Is3D() != 0;
}

}  // namespace

DepthAttribute DepthAttribute::of(OGRLayer& layer, const DepthSourceOptions& options, DepthAccount& account) {
  const std::vector<std::string> names = field_names(layer);
  const std::string& shown = account.shown();
  DepthAttribute out;
  out.names = shown_names(names);
  std::vector<std::string> also;
  out.field = options.field.empty() ? depth_field(names, options.unit, also) : told_field(names, options.field, shown);
  const bool z = has_z(layer);
  if (out.field < 0 && !z) {
    throw InputError(fmt::format(
        "{}: no field whose name says depth, and no Z; it has the fields {}; say which holds the depth: --field NAME "
        "(or field = \"NAME\" beside the file in the lake file)",
        shown, out.names));
  }
  DepthSource& source = account.source();
  if (out.field < 0) {
    source.columns.depth = "Z";
    account.settle_unit(std::nullopt, "");
    return out;
  }
  source.columns.depth = names[static_cast<std::size_t>(out.field)];
  if (z && options.field.empty()) also.emplace_back("Z");
  if (!also.empty()) {
    source.notes.push_back(
        fmt::format("{}: depths are read from field {}; not used: {}", shown, source.columns.depth, shown_names(also)));
  }
  const OGRFieldType type = layer.GetLayerDefn()->GetFieldDefn(out.field)->GetType();
  out.number = type == OFTInteger || type == OFTInteger64 || type == OFTReal;
  const FieldMeaning meaning = meaning_of(source.columns.depth);
  if (meaning.role == FieldRole::elevation) out.sense = Sense::elevation;
  account.settle_unit(meaning.unit, "field name " + source.columns.depth);
  return out;
}

std::optional<double> DepthAttribute::value(const OGRFeature& feature, std::size_t number_of_feature,
                                            DepthAccount& account) const {
  if (feature.IsFieldSetAndNotNull(field) == 0) {
    account.unread(number_of_feature, "it has no depth");
    return std::nullopt;
  }
  if (number) return account.metres(feature.GetFieldAsDouble(field), number_of_feature);
  const std::string text = const_cast<OGRFeature&>(feature).GetFieldAsString(field);
  const char decimal = text.find(',') != text.npos && text.find('.') == text.npos ? ',' : '.';
  return account.metres(std::string_view(text), decimal, number_of_feature);
}

std::optional<DepthAttribute::Begun> DepthAttribute::begin(const OGRFeature& feature, DepthAccount& account,
                                                           const char* without_shape) const {
  const auto number_of_feature = static_cast<std::size_t>(std::max<GIntBig>(0, feature.GetFID()));
  ++account.source().rows;
  const OGRGeometry* shape = feature.GetGeometryRef();
  if (shape == nullptr || shape->IsEmpty()) {
    account.unread(number_of_feature, without_shape);
    return std::nullopt;
  }
  const std::optional<double> metres = field >= 0 ? value(feature, number_of_feature, account) : std::nullopt;
  if (field >= 0 && !metres) return std::nullopt;
  return Begun{number_of_feature, *shape, metres};
}

Mover layer_mover(OGRLayer& layer, const DepthSourceOptions& options, const Projection& target, DepthSource& source) {
  if (!options.crs.empty()) projection_given(options.crs, source.file);
  Mover mover = Mover::between(source_of(layer, {options.path, options.layer, options.crs}), target);
  source.layer = layer.GetName();
  source.row_name = "feature";
  source.crs = mover.source.name();
  const OGRSpatialReference* stated = layer.GetSpatialRef();
  const bool own = stated != nullptr && !stated->IsEmpty();
  source.crs_from = own ? "the file" : "given";
  if (own && !options.crs.empty() && projection_given(options.crs, source.file).name() != source.crs) {
    source.notes.push_back(fmt::format("{}: the file states its CRS ({}), so the one given ({}) is not used",
                                       source.file, source.crs, options.crs));
  }
  return mover;
}

}  // namespace castplan
