// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "castplan/write/plan.hpp"
#include "write/ground_shape.hpp"

namespace castplan {

/// The plan as tables, for formats that have columns: features by kind, spots and passes.

enum class ValueType { number, integer, boolean, text };

/// One cell. Lists and places are text that holds JSON. Text is one line.
struct RecordCell {
  std::string name;
  ValueType type;
  std::optional<std::string> printed;  ///< as every format prints it: 2.40, 3, true; nothing where it is not known
};

/// One row; all rows of a table have cells of the same names and types.
struct RecordRow {
  std::string id;
  GroundShape shape;
  std::vector<RecordCell> cells;
};

struct RecordTable {
  std::string name;   ///< of the kind: drop-off, spot, pass
  std::string title;  ///< for people, plural
  std::string what;   ///< a few words
  std::vector<RecordRow> records;
};

RecordRow record_of(const Plan& plan, const Feature& feature);
RecordRow record_of(const Plan& plan, const Spot& spot);
RecordRow record_of(const Plan& plan, const Pass& pass);

/// Spots and passes of all phases, then the kinds in the order of their table; those without a row are left out.
/// No spots and no passes at a stop.
std::vector<RecordTable> record_tables(const Plan& plan);

}  // namespace castplan
