// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "season/read_phase.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <limits>

#include "castplan/geo/error.hpp"

namespace castplan {
namespace {

// One row a curve: its key, the unit that x must be given in, where it goes, and the factor that it serves.
struct CurveRow {
  std::string_view key;
  std::string_view unit;
  Curve Phase::*curve;
  Factor factor;
};
constexpr std::array<CurveRow, 6> kCurves = {{
    {"depth", "m", &Phase::depth, Factor::depth},
    {"edge_grade", "%", &Phase::edge_grade, Factor::edge},
    {"weed_density", "share", &Phase::weed_density, Factor::edge},
    {"deep_water", "m", &Phase::deep_water, Factor::deep_water},
    {"cover", "m", &Phase::cover, Factor::cover},
    {"meeting", "kinds", &Phase::meeting, Factor::meeting_edges},
}};
// `light` has no row: clarity brings it.
constexpr std::array<Factor, 5> kWeighed = {Factor::depth, Factor::edge, Factor::cover, Factor::deep_water,
                                            Factor::meeting_edges};
// What counts on some days only has a weight of its own, a share of the whole.
struct ShareRow {
  std::string_view key;
  Curve Phase::*curve;
  double Phase::*weight;
};
constexpr std::array<ShareRow, 2> kShares = {{
    {"waves", &Phase::waves, &Phase::waves_weight},
    {"depth_below_weed_edge", &Phase::depth_below_weed_edge, &Phase::weed_edge_weight},
}};
constexpr std::array<LureClass, 5> kLures = {LureClass::inline_spinner, LureClass::crankbait, LureClass::soft_plastic,
                                             LureClass::jerkbait, LureClass::topwater};

std::optional<Phase::Interval> read_interval(const ProfileTable& phase, std::string_view side, const Sources& sources,
                                             std::vector<std::pair<std::string, Source>>& interval_sources) {
  if (!phase.has(side)) return std::nullopt;
  const ProfileTable row = phase.table(side);
  row.allow({"from", "to", "source", "from_source", "to_source"});
  constexpr double kOpen = std::numeric_limits<double>::infinity();
  Phase::Interval interval{Celsius(-kOpen), Celsius(kOpen)};
  for (const bool lower : {true, false}) {
    const std::string_view end = lower ? "from" : "to";
    const std::string own = fmt::format("{}_source", end);
    if (!row.has(end)) {
      if (row.has(own)) row.fail(fmt::format("{} without {}", own, end));
      continue;
    }
    (lower ? interval.from : interval.to) = row.temperature(end);
    interval_sources.emplace_back(fmt::format("{} {}", side, end),
                                  source_of(row, sources, row.has(own) ? std::string_view(own) : "source"));
  }
  if (!(interval.from < interval.to)) row.fail("from must be colder than to");
  return interval;
}

double coordinate(const ProfileTable& table, const toml::node& node) {
  const auto value = node.value<double>();
  if (!node.is_number() || !value || !std::isfinite(*value)) table.fail_at(node, "expected a number");
  return *value;
}

Curve read_curve(const ProfileTable& table, std::string_view unit, const Sources& sources) {
  if (table.text("unit") != unit) {
    table.fail_at(table.node("unit"), fmt::format("unit \"{}\"; expected \"{}\"", table.text("unit"), unit));
  }
  Curve curve;
  for (const toml::node& node : table.array("points")) {
    const toml::array* point = node.as_array();
    if (!point || point->size() != 2) table.fail_at(node, "expected a point [x, suitability]");
    const double x = coordinate(table, (*point)[0]);
    const double y = coordinate(table, (*point)[1]);
    if (!curve.points.empty() && !(x > curve.points.back().first)) {
      table.fail_at(node, fmt::format("x = {:g} follows {:g}; points must ascend", x, curve.points.back().first));
    }
    if (!(y >= 0.0 && y <= 1.0)) table.fail_at(node, fmt::format("suitability {:g}; expected 0 to 1", y));
    curve.points.emplace_back(x, y);
  }
  if (curve.points.empty()) table.fail("points is empty");
  curve.source = source_of(table, sources);
  return curve;
}

void read_weights(const ProfileTable& table, const Sources& sources, Phase& phase) {
  table.allow({"depth", "edge", "cover", "deep_water", "meeting_edges", "source"});
  double sum = 0.0;
  for (const Factor factor : kWeighed) {
    if (!table.has(name_of(factor))) continue;
    const double weight = table.number(name_of(factor));
    if (!(weight > 0.0)) {
      table.fail(
          fmt::format("{} = {:g}; a weight is more than 0, leave the factor out otherwise", name_of(factor), weight));
    }
    sum += weight;
    phase.weights.push_back({factor, {weight, source_of(table, sources)}});
  }
  if (std::abs(sum - 1.0) > 1e-6) table.fail(fmt::format("weights sum to {:g}; expected 1", sum));
}

void match_curves_with_weights(const ProfileTable& table, const Phase& phase) {
  for (const CurveRow& row : kCurves) {
    bool weighed = false;
    for (const auto& weight : phase.weights) weighed = weighed || weight.first == row.factor;
    const bool drawn = !(phase.*row.curve).points.empty();
    if (weighed && !drawn) {
      table.fail(fmt::format("{} has a weight but the curve \"{}\" is missing", name_of(row.factor), row.key));
    }
    if (drawn && !weighed) {
      table.fail(fmt::format("the curve \"{}\" counts for nothing: {} has no weight", row.key, name_of(row.factor)));
    }
  }
}

LureClass lure_named(const ProfileTable& table, const std::string& name) {
  std::vector<std::string_view> names;
  for (const LureClass lure : kLures) {
    if (name_of(lure) == name) return lure;
    names.push_back(name_of(lure));
  }
  const std::string nearest = nearest_name(name, names);
  table.fail(fmt::format("unknown lure \"{}\"{}; known are {}", name,
                         nearest.empty() ? "" : fmt::format(", did you mean \"{}\"?", nearest), listed(names)));
}

Lure read_lure(const ProfileTable& table, const Sources& sources) {
  table.allow({"lure", "kind", "run", "retrieve", "source"});
  Lure lure;
  lure.lure = lure_named(table, table.text("lure"));
  lure.kind = table.text_or_empty("kind");
  const toml::array& run = table.array("run");
  if (run.size() != 2) table.fail_at(run, "run: expected two depths, shallowest first: [\"0.5 m\", \"2.5 m\"]");
  lure.run_from = table.length(run[0]);
  lure.run_to = table.length(run[1]);
  if (lure.run_from < Metres(0) || lure.run_to < lure.run_from) {
    table.fail_at(run, "run: expected two depths below the surface, shallowest first");
  }
  lure.retrieve = table.text("retrieve");
  lure.source = source_of(table, sources);
  return lure;
}

void read_share(const ProfileTable& table, const Sources& sources, const ShareRow& row, Phase& phase) {
  table.allow({"unit", "points", "weight", "source"});
  phase.*row.curve = read_curve(table, "m", sources);
  const double weight = phase.*row.weight = table.number("weight");
  if (!(weight > 0 && weight < 1)) table.fail(fmt::format("weight {:g}; expected more than 0 and less than 1", weight));
}

void read_ranking(const ProfileTable& table, const Sources& sources, Phase& phase) {
  const auto curve = [&](std::string_view key, std::string_view unit) {
    const ProfileTable own = table.table(key);
    own.allow({"unit", "points", "source"});
    return read_curve(own, unit, sources);
  };
  for (const CurveRow& row : kCurves) {
    if (table.has(row.key)) phase.*row.curve = curve(row.key, row.unit);
  }
  if (table.has("depth_below_thermocline")) {
    phase.depth_below_thermocline = curve("depth_below_thermocline", "m");
    if (phase.depth.points.empty()) table.fail("depth_below_thermocline needs a curve \"depth\" beside it");
  }
  for (const ShareRow& row : kShares) {
    if (table.has(row.key)) read_share(table.table(row.key), sources, row, phase);
  }
  read_weights(table.table("weights"), sources, phase);
  match_curves_with_weights(table, phase);
  for (const toml::node& node : table.array("lures")) {
    phase.lures.push_back(read_lure(table.element(node, "lures"), sources));
  }
  if (phase.lures.empty()) table.fail("lures is empty");
}

// A number in a sentence is a number as well.
Source read_prose_source(const ProfileTable& table, const Sources& sources, const Phase& phase) {
  if (table.has("prose_source")) return source_of(table, sources, "prose_source");
  for (const std::string* sentence : {&phase.what, &phase.where, &phase.stop_reason, &phase.look_again}) {
    if (sentence->find_first_of("0123456789") != std::string::npos) {
      table.fail(fmt::format("\"{}\" holds a number; say whence with prose_source", *sentence));
    }
  }
  return {};
}

}  // namespace

Source source_of(const ProfileTable& table, const Sources& sources, std::string_view key) {
  const std::string name = table.text(key);
  const auto found = sources.find(name);
  if (found != sources.end()) return found->second;
  std::vector<std::string_view> names;
  for (const auto& row : sources) names.push_back(row.first);
  const std::string nearest = nearest_name(name, names);
  table.fail(fmt::format("source \"{}\" does not stand in [sources]{}", name,
                         nearest.empty() ? "" : fmt::format(", did you mean \"{}\"?", nearest)));
}

Phase read_phase(const ProfileTable& table, const Sources& sources) {
  table.allow({"name",
               "title",
               "rising",
               "falling",
               "fishable",
               "stop_reason",
               "look_again",
               "ranked_as",
               "what",
               "where",
               "prose_source",
               "depth",
               "depth_below_thermocline",
               "depth_below_weed_edge",
               "edge_grade",
               "weed_density",
               "deep_water",
               "cover",
               "meeting",
               "waves",
               "weights",
               "lures"});
  Phase phase;
  phase.name = table.text("name");
  phase.title = table.text("title");
  phase.what = table.text("what");
  phase.where = table.text("where");
  phase.rising = read_interval(table, "rising", sources, phase.interval_sources);
  phase.falling = read_interval(table, "falling", sources, phase.interval_sources);
  phase.fishable = table.boolean_or("fishable", true);
  if (phase.fishable) {
    for (const std::string_view key : {"stop_reason", "look_again", "ranked_as"}) {
      if (table.has(key)) table.fail(fmt::format("{} belongs to a phase with fishable = false", key));
    }
  } else {
    phase.stop_reason = table.text("stop_reason");
    phase.look_again = table.text("look_again");
    if (!table.has("weights") && !table.has("ranked_as")) {
      table.fail("give ranked_as = \"another phase\" (or weights, curves and lures), for when a stop is set aside");
    }
  }
  phase.prose_source = read_prose_source(table, sources, phase);
  if (!table.has("ranked_as")) {
    read_ranking(table, sources, phase);
    return phase;
  }
  for (const std::string_view key : {"weights", "lures", "depth", "depth_below_thermocline", "depth_below_weed_edge",
                                     "edge_grade", "weed_density", "deep_water", "cover", "meeting", "waves"}) {
    if (table.has(key)) table.fail(fmt::format("{} and ranked_as exclude each other", key));
  }
  return phase;
}

void rank_like(const Phase& model, Phase& phase) {
  for (const CurveRow& row : kCurves) phase.*row.curve = model.*row.curve;
  phase.depth_below_thermocline = model.depth_below_thermocline;
  for (const ShareRow& row : kShares) {
    phase.*row.curve = model.*row.curve;
    phase.*row.weight = model.*row.weight;
  }
  phase.weights = model.weights;
  phase.lures = model.lures;
}

std::vector<std::pair<std::string, Source>> sources_in(const Phase& phase) {
  std::vector<std::pair<std::string, Source>> all = phase.interval_sources;
  if (!phase.prose_source.text.empty()) all.emplace_back("numbers in sentences", phase.prose_source);
  for (const CurveRow& row : kCurves) {
    if (!(phase.*row.curve).points.empty()) all.emplace_back(row.key, (phase.*row.curve).source);
  }
  if (!phase.depth_below_thermocline.points.empty()) {
    all.emplace_back("depth_below_thermocline", phase.depth_below_thermocline.source);
  }
  for (const ShareRow& row : kShares) {
    if (!(phase.*row.curve).points.empty()) all.emplace_back(row.key, (phase.*row.curve).source);
  }
  for (const auto& [factor, weight] : phase.weights) {
    all.emplace_back(fmt::format("weight of {}", name_of(factor)), weight.source);
  }
  for (const Lure& lure : phase.lures) all.emplace_back(fmt::format("lure {}", name_of(lure.lure)), lure.source);
  return all;
}

}  // namespace castplan
