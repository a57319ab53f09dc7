// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "write/carried.hpp"
#include "write/html_text.hpp"
#include "write/plain_text.hpp"
#include "write/spot_table.hpp"
#include "write/teaching.hpp"
#include "write/to_check.hpp"

namespace castplan {
namespace {

/// One place with all that its row needs.
struct CheckRow {
  const Plan& plan;
  const Check& check;
  std::size_t number;
  MicroPlace place;
};

struct Column {
  std::string_view name;
  CellKind cell;
  std::string (*value)(const CheckRow&);
};

constexpr Column kColumns[] = {
    {"number", CellKind::number, [](const CheckRow& row) { return fmt::format("{}", row.number); }},
    {"what", CellKind::text, [](const CheckRow& row) { return row.check.what; }},
    {"lat", CellKind::number, [](const CheckRow& row) { return micro_degrees(row.place.lat); }},
    {"lon", CellKind::number, [](const CheckRow& row) { return micro_degrees(row.place.lon); }},
    {"degrees_minutes", CellKind::text, [](const CheckRow& row) { return plain_degrees_minutes(lonlat(row.place)); }},
    {"place", CellKind::text, [](const CheckRow& row) { return row.check.label; }},
    {"look_at", CellKind::text, [](const CheckRow& row) { return row.check.look_at; }},
    {"how", CellKind::text, [](const CheckRow& row) { return row.check.how; }},
    {"would_change", CellKind::text, [](const CheckRow& row) { return row.check.would_change; }},
    {"spots", CellKind::text, [](const CheckRow& row) { return row.check.spots; }},
    {"id", CellKind::text, [](const CheckRow& row) { return row.check.id; }},
    {"cautions", CellKind::text, [](const CheckRow& row) { return joined(carried_cautions(row.plan), " "); }},
    {"temperatures", CellKind::text, [](const CheckRow& row) { return temperatures_text(row.plan, nullptr); }},
    {"surface", CellKind::text, [](const CheckRow& row) { return row.plan.surface_text; }},
    {"depth_source", CellKind::text, [](const CheckRow& row) { return depth_source_text(row.plan); }},
    {"lake", CellKind::text, [](const CheckRow& row) { return row.plan.lake_name; }},
    {"program", CellKind::text, [](const CheckRow&) { return program_text(); }},
};

}  // namespace

std::string to_check_csv(const Plan& plan) {
  CsvText out;
  for (const Column& column : kColumns) out.cell(column.name, CellKind::number);
  out.end_row();
  const std::vector<Check> checks = to_check(plan, Units::metric);
  for (std::size_t i = 0; i < checks.size(); ++i) {
    const CheckRow row{plan, checks[i], i + 1, printed(plan.lake->projection.to_lonlat(checks[i].at))};
    for (const Column& column : kColumns) out.cell(column.value(row), column.cell);
    out.end_row();
  }
  return std::move(out).text();
}

}  // namespace castplan
