// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>

#include "castplan/grid/grid.hpp"
#include "castplan/grid/groups.hpp"

namespace castplan {

/// Exact Euclidean distance from each cell's centre to the centre of the nearest cell for which the test holds;
/// infinite where there is none. Linear in cells. The test is called from several threads at once.
/// Source: Felzenszwalb & Huttenlocher (2012), Theory of Computing 8, 415-428, doi:10.4086/toc.2012.v008a019.
Grid<Metres32> distance_to(const Frame& frame, const std::function<bool(Cell)>& test);
/// The same, to the cells that are marked.
Grid<Metres32> distance_to_marks(const Frame& frame, const RowMarks& marks);

}  // namespace castplan
