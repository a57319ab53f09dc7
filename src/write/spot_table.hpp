// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "castplan/write/plan.hpp"
#include "write/carried.hpp"

namespace castplan {

/// One spot with all that its row needs.
struct SpotRow {
  const Plan& plan;
  const PhaseSpots& phase;
  const Spot& spot;
  PrintedCast cast;
};

// Numbers are left as they are; only text can be taken for a formula.
enum class CellKind { number, text };

/// Rows of cells by RFC 4180, section 2. A text that a spreadsheet would take for a formula gets an apostrophe.
class CsvText {
 public:
  void cell(std::string_view value, CellKind kind);
  void end_row();
  [[nodiscard]] std::string text() && { return std::move(out_); }

 private:
  std::string out_;
  bool begun_ = false;
};

struct SpotColumn {
  std::string_view name;
  CellKind cell;
  std::string (*value)(const SpotRow&);
};

/// Columns that tables of spots share.
std::string id_cell(const SpotRow& row);
std::string phase_cell(const SpotRow& row);
std::string rank_cell(const SpotRow& row);
std::string lat_cell(const SpotRow& row);
std::string lon_cell(const SpotRow& row);
std::string cautions_cell(const SpotRow& row);  ///< all that the spot and the plan carry
std::string temperatures_cell(const SpotRow& row);
std::string surface_cell(const SpotRow& row);
std::string depth_source_cell(const SpotRow& row);
std::string lake_cell(const SpotRow& row);
std::string program_cell(const SpotRow& row);

/// A table of all spots by phase and rank as CSV (RFC 4180), names of the columns first.
std::string spot_table(const Plan& plan, std::span<const SpotColumn> columns);

}  // namespace castplan
