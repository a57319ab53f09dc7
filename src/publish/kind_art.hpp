// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string_view>

#include "castplan/features/feature.hpp"

namespace castplan {

/// How a kind is drawn; each has its own dash or shape, so that none is told by colour alone (WCAG 2.2, 1.4.1).
struct KindMark {
  Kind kind;
  bool area;                ///< its sample in the legend is an area
  std::string_view symbol;  ///< path about {0, 0} of what stands at each of its points; empty: none
};
const KindMark& mark_of(Kind kind);

}  // namespace castplan
