// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include <algorithm>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "castplan/io/soundings.hpp"
#include "io/depth_attribute.hpp"
#include "io/gdal.hpp"
#include "io/vector_layer.hpp"

namespace castplan {
namespace {

/// A line whose Z differs by more is no contour.
constexpr double kLevel = 0.01;

/// Takes the lines and rings out of features.
class Features {
 public:
  Features(const DepthAttribute& depth, DepthAccount& account, const Mover& mover, int file,
           std::vector<DepthContour>& out)
      : depth_(depth), account_(account), mover_(mover), file_(file), out_(out) {}

  void take(const OGRFeature& feature) {
    const auto begun = depth_.begin(feature, account_, "it has no line");
    if (!begun) return;
    const std::size_t before = out_.size();
    const std::unique_ptr<OGRGeometry> straight(begun->shape.getLinearGeometry());
    take(*straight, begun->metres, begun->number);
    if (out_.size() > before) ++account_.source().used;
  }
  [[nodiscard]] const Signs& signs() const { return signs_; }

 private:
  void take(const OGRGeometry& shape, std::optional<double> metres, std::size_t number) {
    const OGRwkbGeometryType type = wkbFlatten(shape.getGeometryType());
    if (type == wkbLineString) {
      line(*shape.toLineString(), metres, number, false);
    } else if (type == wkbPolygon || type == wkbTriangle) {
      for (const OGRLinearRing* ring : *shape.toPolygon()) line(*ring, metres, number, true);
    } else if (OGR_GT_IsSubClassOf(type, wkbGeometryCollection) != 0) {
      for (const auto* part : *shape.toGeometryCollection()) take(*part, metres, number);
    } else {
      account_.unread(number, "it is neither a line nor an area", shape.getGeometryName());
    }
  }

  /// Z of a line that keeps to one level.
  std::optional<double> level(const OGRSimpleCurve& curve, std::size_t number) {
    if (curve.Is3D() == 0) {
      account_.unread(number, "it has no depth");
      return std::nullopt;
    }
    for (int i = 1; i < curve.getNumPoints(); ++i) {
      if (std::fabs(curve.getZ(i) - curve.getZ(0)) <= kLevel) continue;
      account_.unread(number, "its Z is not the same all along",
                      fmt::format("{} and {}", curve.getZ(0), curve.getZ(i)));
      return std::nullopt;
    }
    return account_.metres(curve.getZ(0), number);
  }

  void line(const OGRSimpleCurve& curve, std::optional<double> metres, std::size_t number, bool ring) {
    if (curve.getNumPoints() < 2) {
      account_.unread(number, "its line has fewer than two points");
      return;
    }
    if (depth_.field < 0) metres = level(curve, number);
    if (!metres) return;
    if (!place_checked_) check_first(curve);
    Line moved;
    moved.reserve(static_cast<std::size_t>(curve.getNumPoints()) + 1);
    for (int i = 0; i < curve.getNumPoints(); ++i) moved.push_back(mover_(curve.getX(i), curve.getY(i)));
    const auto lost = [](XY at) { return !std::isfinite(at.x) || !std::isfinite(at.y); };
    if (std::any_of(moved.begin(), moved.end(), lost)) {
      account_.unread(number, "its place is not on the earth");
      return;
    }
    if (ring && !(moved.front() == moved.back())) moved.push_back(moved.front());
    signs_.add(*metres);
    out_.push_back({std::move(moved), Metres(*metres), file_});
  }

  void check_first(const OGRSimpleCurve& curve) {
    std::vector<XY> own;
    for (int i = 0; i < curve.getNumPoints(); ++i) own.push_back({curve.getX(i), curve.getY(i)});
    mover_ = placed(own, mover_, account_.shown(), "check the CRS, or write the layer anew");
    place_checked_ = true;
  }

  const DepthAttribute& depth_;
  DepthAccount& account_;
  Mover mover_;
  int file_;
  std::vector<DepthContour>& out_;
  Signs signs_;
  bool place_checked_ = false;
};

[[noreturn]] void fail_empty(const DepthSource& source, const std::string& names, const std::string& shown) {
  std::string why;
  for (const auto& [reason, count] : source.reasons) why += fmt::format("; {} of them: {}", count, reason);
  throw InputError(fmt::format(
      "{}: none of its {} features is a contour with a depth{}; its fields are {}; say which holds the depth: --field "
      "NAME (or field = \"NAME\" beside the file in the lake file)",
      shown, source.rows, why, names));
}

void note_unread(const std::string& names, const std::string& shown, DepthSource& source) {
  if (source.reasons.empty()) return;
  std::string numbers;
  for (const DepthSource::Unread& one : source.unread)
    numbers += fmt::format("{}{}", numbers.empty() ? "" : ", ", one.line);
  std::size_t all = 0;
  for (const auto& [reason, count] : source.reasons) all += count;
  source.notes.push_back(fmt::format(
      "{}: {} contours are not used (feature {}{}: {}); its fields are {}; give each a depth in {}, or delete it",
      shown, all, numbers, all > source.unread.size() ? " and on" : "", source.unread.front().why, names,
      source.columns.depth));
}

/// Depths as they stand in the lake; what stands above the surface is no contour of its floor.
void settle(const ToDepth& depth, const std::string& shown, ContoursRead& out) {
  for (DepthContour& one : out.contours) {
    const double metres = depth(one.depth.value());
    one.depth = Metres(metres == 0 ? 0.0 : metres);
  }
  constexpr double kShore = 1e-6;
  const std::size_t dry =
      std::erase_if(out.contours, [](const DepthContour& one) { return one.depth.value() < -kShore; });
  if (dry > 0) {
    out.source.reasons["it stands above the water's surface"] += dry;
    out.source.notes.push_back(
        fmt::format("{}: {} contours stand above the water's surface and are not used", shown, dry));
  }
  if (out.contours.empty()) {
    throw InputError(
        fmt::format("{}: all contours stand above the water's surface; check the sense, the unit and the "
                    "level",
                    shown));
  }
}

void describe_contours(const std::vector<DepthContour>& contours, const Projection& target, DepthSource& source) {
  std::vector<Sounding> vertices;
  for (const DepthContour& one : contours) {
    for (const XY at : one.line) vertices.push_back({at, Metres32(one.depth), one.file, -1});
  }
  describe(vertices, target, source);
}

}  // namespace

ContoursRead read_contours(const ContourOptions& options, const Projection& target, int file) {
  const std::string shown = options.shown.empty() ? file_name(options.path) : options.shown;
  const Dataset dataset = open_dataset(options.path, shown, DataKind::vector);
  const GdalMessages messages;
  auto& opened = *static_cast<GDALDataset*>(dataset.get());
  OGRLayer& layer = layer_of(opened, {options.path, options.layer, options.crs});
  ContoursRead out;
  out.source.format = opened.GetDriverName();
  DepthAccount account(options, shown, out.source);
  const DepthAttribute depth = DepthAttribute::of(layer, options, account);
  const Mover mover = layer_mover(layer, options, target, out.source);
  Features features(depth, account, mover, file, out.contours);
  layer.ResetReading();
  while (const OGRFeatureUniquePtr feature{layer.GetNextFeature()}) features.take(*feature);
  if (messages.failed()) throw InputError(fmt::format("{}: cannot be read{}", shown, messages.in_brackets()));
  if (out.contours.empty()) fail_empty(out.source, depth.names, shown);
  note_unread(depth.names, shown, out.source);
  ContourOptions settled = options;
  if (!settled.sense) settled.sense = depth.sense;
  settle(settle_sense(features.signs(), settled, Metres(0), shown, out.source), shown, out);
  if (!options.sense && depth.sense) out.source.sense_from = "field name " + out.source.columns.depth;
  describe_contours(out.contours, target, out.source);
  return out;
}

}  // namespace castplan
