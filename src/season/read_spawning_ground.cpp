// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "season/read_spawning_ground.hpp"

#include <fmt/format.h>

namespace castplan {
namespace {

/// A row { from, to, source } or { to, source }; the source is kept under the row's key.
class Rows {
 public:
  Rows(const ProfileTable& table, const Sources& sources, SpawningGround& out)
      : table_(table), sources_(sources), out_(out) {}

  ProfileTable row(std::string_view key, std::initializer_list<std::string_view> known) {
    ProfileTable found = table_.table(key);
    found.allow(known);
    out_.sources.emplace_back(key, source_of(found, sources_));
    return found;
  }
  /// Two numbers, the first no more than the second and not below 0.
  std::pair<double, double> range(std::string_view key, std::string_view unit) {
    const ProfileTable found = row(key, {"from", "to", "unit", "source"});
    if (found.text("unit") != unit) {
      found.fail_at(found.node("unit"), fmt::format("unit \"{}\"; expected \"{}\"", found.text("unit"), unit));
    }
    const std::pair limits(found.number("from"), found.number("to"));
    if (!(limits.first >= 0 && limits.first < limits.second)) found.fail("expected 0 or more, from below to");
    return limits;
  }
  bool yes(std::string_view key) {
    if (!table_.has(key)) return false;
    return row(key, {"value", "source"}).boolean_or("value", false);
  }

 private:
  const ProfileTable& table_;
  const Sources& sources_;
  SpawningGround& out_;
};

}  // namespace

SpawningGround read_spawning_ground(const ProfileTable& table, const Sources& sources) {
  table.allow({"free_from", "depth", "grade", "area", "fetch", "concave", "plants", "reason", "reason_source"});
  SpawningGround out;
  Rows rows(table, sources, out);
  const ProfileTable free = rows.row("free_from", {"value", "source"});
  out.free_from = {free.temperature("value"), source_of(free, sources)};
  const ProfileTable depth = rows.row("depth", {"from", "to", "source"});
  out.habitat.depth = {depth.length(depth.node("from")), depth.length(depth.node("to"))};
  if (!(out.habitat.depth.least >= Metres(0) && out.habitat.depth.least < out.habitat.depth.most)) {
    depth.fail("expected two depths, from shallower than to");
  }
  const auto grade = rows.range("grade", "%");
  out.habitat.grade_pct = {grade.first, grade.second};
  const auto area = rows.range("area", "m2");
  out.habitat.area = {SquareMetres(area.first), SquareMetres(area.second)};
  const ProfileTable fetch = rows.row("fetch", {"to", "source"});
  out.habitat.fetch_most = fetch.length(fetch.node("to"));
  out.habitat.concave = rows.yes("concave");
  out.habitat.plants = rows.yes("plants");
  out.reason = table.text("reason");
  out.sources.emplace_back("reason", source_of(table, sources, "reason_source"));
  return out;
}

}  // namespace castplan
