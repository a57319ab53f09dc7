// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "castplan/io/vector.hpp"

class GDALDataset;
class OGRLayer;

namespace castplan {

/// The layer named, or the only one with features. InputError that lists what there is.
OGRLayer& layer_of(GDALDataset& dataset, const VectorOptions& options);

/// The layer's own system, else the one given. InputError when neither is there.
Projection source_of(OGRLayer& layer, const VectorOptions& options);

}  // namespace castplan
