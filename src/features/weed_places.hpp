// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <vector>

#include "castplan/features/detect.hpp"
#include "castplan/geo/planar.hpp"
#include "castplan/terrain/fetch.hpp"

namespace castplan {

/// One place on an edge of plants.
struct WeedPlace {
  XY at;
  Metres depth;
  double stand = 1;  ///< share of the plants that the slope leaves, 0 to 1; NaN where the slope is not known
  bool at_break = false;
  bool hidden = false;             ///< nothing is to be said here: beside a mapped bed, or off the water
  std::optional<WeedLoss> bare{};  ///< no plants, and why
  bool waves_known = true;
  std::optional<WeedLoss> above{};  ///< of an inside edge: what keeps the shallows bare
};

/// Everything about the lake that tells where plants can stand.
class WeedGround {
 public:
  WeedGround(const Ground& ground, const DetectOptions& options);

  /// Places along a contour of the weed depth, and along one of the usual depth of inside edges, in its order; the
  /// first and the last are those of its ends. along: even steps.
  [[nodiscard]] std::vector<WeedPlace> outside(const Line& along) const;
  [[nodiscard]] std::vector<WeedPlace> inside(const Line& along) const;

  /// The shallowest inside edge: what the survey can tell from the shore.
  [[nodiscard]] Metres inside_least() const { return inside_least_; }
  /// Where inside edges are looked for first.
  [[nodiscard]] Metres inside_depth() const { return inside_depth_; }
  [[nodiscard]] const Polygons& beds() const { return beds_; }
  [[nodiscard]] bool rock_known() const { return rock_known_; }
  /// Bottom of a swing that leaves few plants; 0 without one.
  [[nodiscard]] Metres swing_bottom() const { return swing_bottom_; }

 private:
  struct Steep {
    double top;         ///< how far up the slope it ends, metres
    bool at_once;       ///< it, or one joined to it, begins at the place itself
    bool gentle_above;  ///< false: it ends at the shore or the unknown
  };
  [[nodiscard]] std::optional<Steep> steep_above(XY at, XY up) const;
  [[nodiscard]] WeedPlace on_slope(XY at) const;
  [[nodiscard]] WeedPlace inside_at(XY at, std::optional<Metres> waves) const;
  [[nodiscard]] double top_near(XY at, XY up, double away) const;
  [[nodiscard]] double grade(XY at, XY up, double away, double half) const;
  [[nodiscard]] std::vector<std::optional<Metres>> wave_bases(const Line& along) const;
  void look_around(WeedPlace& place) const;

  const Ground& ground_;
  const DetectOptions& options_;
  Metres weeds_;
  double fine_;  ///< half of the stretch of floor by which a slope's end is told, metres
  double half_;  ///< the same, by which a floor is steep or not
  Metres inside_depth_{};
  Metres swing_bottom_{};
  Polygons beds_;
  std::optional<PreparedShape> near_bed_;
  std::optional<PreparedShape> rock_;
  bool rock_known_ = false;
  Metres inside_least_;
  WindFetch fetch_;
};

}  // namespace castplan
