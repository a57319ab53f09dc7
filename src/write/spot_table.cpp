// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/spot_table.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "write/plain_text.hpp"

namespace castplan {
namespace {

std::string cell_text(std::string_view value, CellKind cell) {
  std::string text(value);
  if (cell == CellKind::text) {
    text = one_line(value);
    if (!text.empty() && std::string_view("=+-@").find(text.front()) != std::string_view::npos) text.insert(0, 1, '\'');
  }
  if (text.find_first_of(",\"") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char letter : text) {
    if (letter == '"') quoted += '"';
    quoted += letter;
  }
  return quoted + '"';
}

}  // namespace

void CsvText::cell(std::string_view value, CellKind kind) {
  if (begun_) out_ += ',';
  begun_ = true;
  out_ += cell_text(value, kind);
}

void CsvText::end_row() {
  out_ += "\r\n";
  begun_ = false;
}

std::string id_cell(const SpotRow& row) { return row.spot.id; }
std::string phase_cell(const SpotRow& row) { return row.spot.phase; }
std::string rank_cell(const SpotRow& row) { return fmt::format("{}", row.spot.rank); }
std::string lat_cell(const SpotRow& row) { return micro_degrees(row.cast.boat.lat); }
std::string lon_cell(const SpotRow& row) { return micro_degrees(row.cast.boat.lon); }
std::string temperatures_cell(const SpotRow& row) { return temperatures_text(row.plan, row.phase.phase); }
std::string surface_cell(const SpotRow& row) { return row.plan.surface_text; }
std::string depth_source_cell(const SpotRow& row) { return depth_source_text(row.plan); }
std::string lake_cell(const SpotRow& row) { return row.plan.lake_name; }
std::string program_cell(const SpotRow&) { return program_text(); }

std::string cautions_cell(const SpotRow& row) {
  std::vector<std::string> all = spot_cautions(row.plan, row.spot);
  for (const std::string& caution : carried_cautions(row.plan)) {
    if (std::find(all.begin(), all.end(), caution) == all.end()) all.push_back(caution);
  }
  return joined(all, " ");
}

std::string spot_table(const Plan& plan, std::span<const SpotColumn> columns) {
  CsvText out;
  for (const SpotColumn& column : columns) out.cell(column.name, CellKind::number);
  out.end_row();
  for (const PhaseSpots* phase : phases_with_spots(plan)) {
    for (const Spot& spot : phase->spots) {
      const SpotRow row{plan, *phase, spot, printed_cast(plan, spot)};
      for (const SpotColumn& column : columns) out.cell(column.value(row), column.cell);
      out.end_row();
    }
  }
  return std::move(out).text();
}

}  // namespace castplan
