// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/records.hpp"

#include <fmt/format.h>

#include "write/plain_text.hpp"
#include "write/properties.hpp"

namespace castplan {
namespace {

class CellSink : public PropertySink {
 public:
  explicit CellSink(std::vector<RecordCell>& cells) : cells_(cells) {}
  void number(std::string_view name, std::optional<double> value, int decimals) override {
    const std::string digits = value ? fixed(*value, decimals) : std::string();
    add(name, ValueType::number, digits.empty() ? std::nullopt : std::optional(digits));
  }
  void integer(std::string_view name, long long value) override {
    add(name, ValueType::integer, fmt::format("{}", value));
  }
  void boolean(std::string_view name, bool value) override { add(name, ValueType::boolean, value ? "true" : "false"); }
  void text(std::string_view name, std::string_view value) override { add(name, ValueType::text, one_line(value)); }
  void list(std::string_view name, const std::string& json) override { text(name, json); }
  void none(std::string_view name) override { add(name, ValueType::text, std::nullopt); }

 private:
  void add(std::string_view name, ValueType type, std::optional<std::string> printed) {
    cells_.push_back({std::string(name), type, std::move(printed)});
  }
  std::vector<RecordCell>& cells_;
};

template <class Thing>
void add_rows(std::vector<RecordTable>& tables, const Plan& plan, RecordTable table,
              std::vector<Thing> PhaseSpots::*things) {
  for (const PhaseSpots* phase : phases_with_spots(plan)) {
    for (const Thing& thing : phase->*things) table.records.push_back(record_of(plan, thing));
  }
  if (!table.records.empty()) tables.push_back(std::move(table));
}

}  // namespace

RecordRow record_of(const Plan& plan, const Feature& feature) {
  RecordRow out{feature.id, ground_shape(feature.geometry, plan.lake->projection), {}};
  CellSink sink(out.cells);
  put_properties(sink, plan, feature);
  return out;
}

RecordRow record_of(const Plan& plan, const Spot& spot) {
  const PrintedCast cast = printed_cast(plan, spot);
  RecordRow out{spot.id, MicroPath{cast.boat}, {}};
  CellSink sink(out.cells);
  put_properties(sink, plan, spot, cast);
  return out;
}

RecordRow record_of(const Plan& plan, const Pass& pass) {
  RecordRow out{pass.id, ground_shape(Lines{pass.lane}, plan.lake->projection), {}};
  CellSink sink(out.cells);
  put_properties(sink, plan, pass);
  return out;
}

std::vector<RecordTable> record_tables(const Plan& plan) {
  std::vector<RecordTable> out;
  add_rows(out, plan, {"spot", "spots", "where the boat holds, best first in each phase", {}}, &PhaseSpots::spots);
  add_rows(out, plan, {"pass", "passes", "lanes that the boat follows past an edge", {}}, &PhaseSpots::passes);
  for (const KindRow& row : kinds()) {
    RecordTable table{std::string(row.name), std::string(row.plural), std::string(row.what), {}};
    for (const Feature& feature : plan.features) {
      if (feature.kind == row.kind) table.records.push_back(record_of(plan, feature));
    }
    if (!table.records.empty()) out.push_back(std::move(table));
  }
  return out;
}

}  // namespace castplan
