// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "castplan/grid/isoline.hpp"

namespace castplan {

/// How the slope changes down the slope: g'Hg / g'g for gradient g and second derivatives H, in 1/m. It falls through
/// zero where the slope is greatest, the step edge of image analysis (Canny 1986, IEEE PAMI 8, 679-698).
/// NaN where the floor is gentler than least (a fraction), on the field's border, and where anything in the window is
/// unknown. Worked out where it is asked for; the field must outlive it.
class SlopeChange {
 public:
  SlopeChange(const Grid<Metres32>& smooth, float least) : smooth_(&smooth), least_(least) {}

  [[nodiscard]] const Frame& frame() const { return smooth_->frame(); }
  [[nodiscard]] FieldRows rows() const;
  /// By bilinear interpolation.
  [[nodiscard]] float at(XY place) const;

 private:
  const Grid<Metres32>* smooth_;
  float least_;
};

}  // namespace castplan
