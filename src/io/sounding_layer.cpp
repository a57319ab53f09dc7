// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include <algorithm>

#include "castplan/geo/error.hpp"
#include "io/depth_attribute.hpp"
#include "io/gdal.hpp"
#include "io/sounding_readers.hpp"
#include "io/vector_layer.hpp"

namespace castplan {
namespace {

/// Takes the soundings out of features: points one by one, the vertices of lines as tracks.
class Features {
 public:
  Features(const DepthAttribute& depth, DepthAccount& account, SoundingCollector& collector, int first_track)
      : depth_(depth), account_(account), collector_(collector), first_track_(first_track) {}

  void take(const OGRFeature& feature) {
    const auto begun = depth_.begin(feature, account_, "it has no place");
    if (begun) take(begun->shape, begun->metres, begun->number);
  }
  [[nodiscard]] int tracks() const { return tracks_; }

 private:
  void take(const OGRGeometry& shape, std::optional<double> metres, std::size_t number) {
    const OGRwkbGeometryType type = wkbFlatten(shape.getGeometryType());
    if (type == wkbPoint) {
      place(*shape.toPoint(), metres, -1, number);
    } else if (type == wkbLineString) {
      const int track = first_track_ + tracks_++;
      for (const OGRPoint& point : *shape.toLineString()) place(point, metres, track, number);
    } else if (type == wkbMultiPoint || type == wkbMultiLineString || type == wkbGeometryCollection) {
      for (const auto* part : *shape.toGeometryCollection()) take(*part, metres, number);
    } else {
      account_.unread(number, "it is neither a point nor a line", shape.getGeometryName());
    }
  }

  void place(const OGRPoint& point, std::optional<double> metres, int track, std::size_t number) {
    if (point.IsEmpty()) {
      account_.unread(number, "it has no place");
      return;
    }
    if (depth_.field < 0) metres = point.Is3D() != 0 ? account_.metres(point.getZ(), number) : std::nullopt;
    if (depth_.field < 0 && point.Is3D() == 0) account_.unread(number, "it has no depth");
    if (metres) collector_.add({point.getX(), point.getY()}, *metres, track, number);
  }

  const DepthAttribute& depth_;
  DepthAccount& account_;
  SoundingCollector& collector_;
  int first_track_;
  int tracks_ = 0;
};

}  // namespace

SoundingsRead read_layer(const SoundingOptions& options, const Projection& target, Numbers numbers,
                         const std::string& shown) {
  const Dataset dataset = open_dataset(options.path, shown, DataKind::vector);
  const GdalMessages messages;
  auto& opened = *static_cast<GDALDataset*>(dataset.get());
  OGRLayer& layer = layer_of(opened, {options.path, options.layer, options.crs});
  SoundingsRead out;
  out.source.format = opened.GetDriverName();
  DepthAccount account(options, shown, out.source);
  DepthSourceOptions where = options;
  if (where.field.empty()) where.field = options.columns.depth;
  const DepthAttribute depth = DepthAttribute::of(layer, where, account);
  const Mover mover = layer_mover(layer, options, target, out.source);
  SoundingCollector collector(account, mover, numbers.file, "check the CRS, or write the layer anew", out.soundings);
  Features features(depth, account, collector, numbers.first_track);
  layer.ResetReading();
  while (const OGRFeatureUniquePtr feature{layer.GetNextFeature()}) features.take(*feature);
  if (messages.failed()) throw InputError(fmt::format("{}: cannot be read{}", shown, messages.in_brackets()));
  SoundingOptions settled = options;
  if (!settled.sense) settled.sense = depth.sense;
  collector.finish(settled);
  if (!options.sense && depth.sense) out.source.sense_from = "field name " + out.source.columns.depth;
  out.source.tracks = features.tracks();
  return out;
}

}  // namespace castplan
