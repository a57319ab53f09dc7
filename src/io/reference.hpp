// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

class OGRSpatialReference;

namespace castplan {

/// The horizontal part of a file's coordinate reference system as WKT; empty where there is none.
std::string reference_text(const OGRSpatialReference* reference);

}  // namespace castplan
