// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <array>
#include <vector>

#include "castplan/write/text.hpp"
#include "write/log.hpp"
#include "write/spot_table.hpp"

namespace castplan {
namespace {

std::string blank(const SpotRow&) { return {}; }

// Blank columns are for the pencil; what comes after them is there to be carried, not read. Quantities are written with
// their unit, as on the command line: 66F, 2.7m.
constexpr SpotColumn kColumns[] = {
    {"id", CellKind::text, id_cell},
    {"phase", CellKind::text, phase_cell},
    {"rank", CellKind::number, rank_cell},
    {"lat", CellKind::number, lat_cell},
    {"lon", CellKind::number, lon_cell},
    {"date", CellKind::text, blank},
    {"start", CellKind::text, blank},
    {"minutes_fished", CellKind::number, blank},
    {"casts", CellKind::number, blank},
    {"water_temp", CellKind::text, blank},
    {"clarity", CellKind::text, blank},
    {"seen", CellKind::number, blank},
    {"follows", CellKind::number, blank},
    {"hooked", CellKind::number, blank},
    {"landed", CellKind::number, blank},
    {"length", CellKind::text, blank},
    {"hooked_where", CellKind::text, blank},
    {"net_s", CellKind::number, blank},
    {"air_s", CellKind::number, blank},
    {"condition", CellKind::text, blank},
    {"tag", CellKind::text, blank},
    {"notes", CellKind::text, blank},
    {"cautions", CellKind::text, cautions_cell},
    {"temperatures", CellKind::text, temperatures_cell},
    {"surface", CellKind::text, surface_cell},
    {"depth_source", CellKind::text, depth_source_cell},
    {"lake", CellKind::text, lake_cell},
    {"program", CellKind::text, program_cell},
};

// Records of cells; quotes as in RFC 4180, section 2.
std::vector<std::vector<std::string>> records_of(std::string_view text) {
  std::vector<std::vector<std::string>> records;
  bool quoted = false;
  bool begun = false;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const char letter = text[at];
    if (!begun) records.emplace_back(1);
    begun = true;
    std::vector<std::string>& record = records.back();
    if (letter == '"') {
      if (quoted && at + 1 < text.size() && text[at + 1] == '"')
        record.back() += text[at++];
      else
        quoted = !quoted;
    } else if (letter == ',' && !quoted) {
      record.emplace_back();
    } else if (letter == '\n' && !quoted) {
      begun = false;
    } else if (letter != '\r' || quoted) {
      record.back() += letter;
    }
  }
  return records;
}

}  // namespace

std::string log_csv(const Plan& plan) { return spot_table(plan, kColumns); }

bool is_blank_log(std::string_view bytes) {
  const auto records = records_of(bytes);
  if (records.empty()) return false;
  for (std::size_t row = 0; row < records.size(); ++row) {
    if (records[row].size() != std::size(kColumns)) return false;
    for (std::size_t i = 0; i < std::size(kColumns); ++i) {
      const bool as_ours =
          row == 0 ? records[row][i] == kColumns[i].name : kColumns[i].value != blank || records[row][i].empty();
      if (!as_ours) return false;
    }
  }
  return true;
}

}  // namespace castplan
