// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "io/reference.hpp"

#include <cpl_conv.h>
#include <ogr_spatialref.h>

#include <memory>

namespace castplan {

std::string reference_text(const OGRSpatialReference* reference) {
  if (reference == nullptr || reference->IsEmpty()) return {};
  OGRSpatialReference flat(*reference);
  if (flat.IsCompound() != 0) flat.StripVertical();
  char* text = nullptr;
  const char* const options[] = {"FORMAT=WKT2_2019", "MULTILINE=NO", nullptr};
  std::string out;
  if (flat.exportToWkt(&text, options) == OGRERR_NONE && text != nullptr) out = text;
  CPLFree(text);
  return out;
}

}  // namespace castplan
