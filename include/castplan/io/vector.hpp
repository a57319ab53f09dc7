// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <string>
#include <vector>

#include "castplan/geo/projection.hpp"
#include "castplan/geo/shape.hpp"

namespace castplan {

/// One record of a vector layer, brought to the working projection (Z dropped, curves straightened).
struct Record {
  Geometry geometry;
  std::map<std::string, std::string> attributes;  ///< as text, by field name; empty values left out
};

struct VectorOptions {
  std::string path{};
  std::string layer{};  ///< empty: the only layer; several without a name is an error that lists them
  std::string crs{};    ///< only used where the layer states none
};

/// Reads any vector layer that GDAL reads. A layer without a CRS and without `crs` is an InputError; so is one that
/// cannot be opened, or has no geometry at all.
std::vector<Record> read_vector(const VectorOptions& options, const Projection& target);

/// All polygons of a layer, made valid where they cross themselves. InputError when it holds none.
Polygons read_polygons(const VectorOptions& options, const Projection& target);

}  // namespace castplan
