// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

#include "castplan/geo/error.hpp"
#include "season/check_profile.hpp"
#include "season/read_phase.hpp"
#include "season/read_spawning_ground.hpp"

namespace castplan {
namespace {

constexpr std::array<std::string_view, 4> kMarks = {"published", "common-practice", "design", "memory"};

void require_name(const ProfileTable& table, const std::string& name) {
  const bool plain = std::all_of(name.begin(), name.end(),
                                 [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; });
  if (!plain) table.fail(fmt::format("name = \"{}\"; expected small letters, digits and hyphens", name));
}

Sources read_sources(const ProfileTable& table) {
  Sources sources;
  for (const auto& [key, value] : table.raw()) {
    const ProfileTable row = table.element(value, std::string(key.str()));
    row.allow({"text", "mark"});
    const Source source{row.text("text"), row.text("mark")};
    if (std::find(kMarks.begin(), kMarks.end(), source.mark) == kMarks.end()) {
      row.fail(fmt::format("mark \"{}\" is unknown; known are {}", source.mark, listed(kMarks)));
    }
    sources.emplace(key.str(), source);
  }
  return sources;
}

std::optional<Sourced<Celsius>> read_limit(const ProfileTable& table, std::string_view key, const Sources& sources) {
  if (!table.has(key)) return std::nullopt;
  const ProfileTable row = table.table(key);
  row.allow({"value", "source"});
  return Sourced<Celsius>{row.temperature("value"), source_of(row, sources)};
}

std::optional<Sourced<double>> read_oxygen(const ProfileTable& table, const Sources& sources) {
  if (!table.has("least_oxygen")) return std::nullopt;
  const ProfileTable row = table.table("least_oxygen");
  row.allow({"value", "source"});
  const double least = row.number("value");
  if (!(least > 0 && least < 15)) row.fail("value: expected milligrams a litre, more than 0 and less than 15");
  return Sourced<double>{least, source_of(row, sources)};
}

std::optional<Sourced<Metres>> read_depth(const ProfileTable& table, std::string_view key, const Sources& sources) {
  if (!table.has(key)) return std::nullopt;
  const ProfileTable row = table.table(key);
  row.allow({"value", "source"});
  const Metres depth = row.length(row.node("value"));
  if (!(depth > Metres(0))) row.fail("value must be a depth below the surface, more than 0");
  return Sourced<Metres>{depth, source_of(row, sources)};
}

std::vector<CatchSurvey> read_catch_rates(const ProfileTable& table, const Sources& sources) {
  std::vector<CatchSurvey> surveys;
  if (!table.has("catch_rates")) return surveys;
  for (const toml::node& node : table.array("catch_rates")) {
    const ProfileTable row = table.element(node, "catch_rates");
    row.allow({"fish", "hours", "counted", "source"});
    const CatchSurvey survey{row.number("fish"), row.number("hours"), row.text_or_empty("counted"),
                             source_of(row, sources)};
    if (!(survey.fish > 0 && std::isfinite(survey.fish))) row.fail("fish: expected how many were caught, more than 0");
    if (!(survey.hours > 0 && std::isfinite(survey.hours))) {
      row.fail("hours: expected angler-hours of fishing, more than 0");
    }
    surveys.push_back(survey);
  }
  return surveys;
}

std::vector<std::pair<std::string, Source>> read_sentences(const ProfileTable& table, std::string_view key,
                                                           const Sources& sources) {
  std::vector<std::pair<std::string, Source>> sentences;
  if (!table.has(key)) return sentences;
  for (const toml::node& node : table.array(key)) {
    const ProfileTable row = table.element(node, std::string(key));
    row.allow({"text", "source"});
    sentences.emplace_back(row.text("text"), source_of(row, sources));
  }
  return sentences;
}

// "Use a net." and its source become "Use a net (common practice, no source)."
std::string with_source(const std::string& sentence, const Source& source) {
  const bool stopped = sentence.back() == '.';
  return fmt::format("{} ({}{}).", stopped ? sentence.substr(0, sentence.size() - 1) : sentence, source.text,
                     source.mark == "memory" ? ", from memory" : "");
}

void read_phases(const ProfileTable& table, const Sources& sources, Profile& profile) {
  std::vector<std::string> ranked_as;
  for (const toml::node& node : table.array("phase")) {
    const ProfileTable unnamed = table.element(node, "phase");
    const ProfileTable row = table.element(node, fmt::format("phase {}", unnamed.text("name")));
    require_name(row, row.text("name"));
    profile.phases.push_back(read_phase(row, sources));
    ranked_as.push_back(row.text_or_empty("ranked_as"));
  }
  for (std::size_t i = 0; i < ranked_as.size(); ++i) {
    if (ranked_as[i].empty()) continue;
    const Phase* model = phase_named(profile, ranked_as[i]);
    if (!model || !model->fishable) {
      throw InputError(fmt::format("{}: phase {}: ranked_as = \"{}\"; expected the name of a fishable phase",
                                   table.file(), profile.phases[i].name, ranked_as[i]));
    }
    rank_like(*model, profile.phases[i]);
  }
}

void note(std::vector<std::string>& list, const std::string& what, const Source& source) {
  if (source.mark == "memory") list.push_back(fmt::format("{} ({})", what, source.text));
}

// All that rests on memory, named, so that it is printed as such.
std::vector<std::string> unverified(const Profile& profile) {
  std::vector<std::string> list;
  if (profile.optimum) note(list, "optimum", profile.optimum->source);
  if (profile.caution_from) note(list, "caution_from", profile.caution_from->source);
  if (profile.stop_from) note(list, "stop_from", profile.stop_from->source);
  if (profile.deep_release) note(list, "deep_release", profile.deep_release->source);
  if (profile.least_oxygen) note(list, "least_oxygen", profile.least_oxygen->source);
  if (profile.reach) note(list, "reach", profile.reach->source);
  if (profile.spawning) {
    for (const auto& [what, source] : profile.spawning->sources) note(list, "spawning ground, " + what, source);
  }
  for (const Phase& phase : profile.phases) {
    for (const auto& [what, source] : sources_in(phase)) note(list, fmt::format("{}, {}", phase.name, what), source);
  }
  for (const CatchSurvey& each : profile.catch_surveys) note(list, "catch rate", each.source);
  for (const auto& [text, source] : profile.facts) note(list, text, source);
  return list;
}

Profile read_table(const ProfileTable& table) {
  table.allow({"name", "title", "latin", "optimum", "caution_from", "stop_from", "deep_release", "reach",
               "least_oxygen", "spawning_ground", "catch_rates", "handling", "facts", "sources", "phase"});
  const Sources sources = read_sources(table.table("sources"));
  Profile profile;
  profile.name = table.text("name");
  require_name(table, profile.name);
  profile.title = table.text("title");
  profile.latin = table.text("latin");
  profile.optimum = read_limit(table, "optimum", sources);
  profile.caution_from = read_limit(table, "caution_from", sources);
  profile.stop_from = read_limit(table, "stop_from", sources);
  profile.deep_release = read_depth(table, "deep_release", sources);
  profile.least_oxygen = read_oxygen(table, sources);
  profile.reach = read_depth(table, "reach", sources);
  if (table.has("spawning_ground")) profile.spawning = read_spawning_ground(table.table("spawning_ground"), sources);
  profile.catch_surveys = read_catch_rates(table, sources);
  if (profile.stop_from) profile.stop_text = table.table("stop_from").text("value");
  profile.facts = read_sentences(table, "facts", sources);
  const auto handling = read_sentences(table, "handling", sources);
  if (handling.empty()) table.fail("\"handling\" is missing or empty; say how the fish is to be treated");
  for (const auto& [text, source] : handling) profile.handling.push_back(with_source(text, source));
  read_phases(table, sources, profile);
  profile.unverified = unverified(profile);
  for (const auto& [text, source] : handling) note(profile.unverified, text, source);
  return profile;
}

}  // namespace

Profile read_profile(std::string_view toml, const std::string& where) {
  try {
    const toml::table root = toml::parse(toml, where);
    Profile profile = read_table(ProfileTable(root, where, ""));
    check_profile(profile, where);
    profile.text = std::string(toml);
    return profile;
  } catch (const toml::parse_error& error) {
    throw InputError(fmt::format("{}, line {}: not TOML: {}", where, error.source().begin.line, error.description()));
  }
}

}  // namespace castplan
