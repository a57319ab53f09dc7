// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <catch2/catch.hpp>
#include <deque>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "castplan/publish/site.hpp"
#include "castplan/write/folder.hpp"
#include "castplan/write/text.hpp"
#include "support/plans.hpp"
#include "support/programs.hpp"

/// Folders as `scout` writes them, of invented plans that hold one feature of each kind.
namespace castplan::club {

using nlohmann::json;
using programs::Scratch;

/// A plan whose lake is told as 300 ha, so that it has spots on a site (the bowl that is drawn has 28 ha).
inline Plan large(sample::Options options = {.one_phase = true}) {
  static std::deque<Lake> lakes;
  Plan plan = sample::plan(options);
  Lake& lake = lakes.emplace_back(*plan.lake);
  lake.area = SquareMetres(3.0e6);
  plan.lake = &lake;
  return plan;
}

inline std::string folder_of(const Scratch& scratch, const std::string& name, const Plan& plan) {
  const std::string folder = scratch.path(name);
  write_folder(folder, {{"features.geojson", features_geojson(plan)},
                        {"spots.geojson", spots_geojson(plan)},
                        {"passes.geojson", passes_geojson(plan)},
                        {"contours.geojson", contours_geojson(plan)},
                        {"summary.json", summary_json(plan)}});
  return folder;
}

inline Site site_of(const Plan& plan, const PublishOptions& options = {}) {
  const Scratch scratch;
  return make_site({folder_of(scratch, "plan", plan)}, options);
}

inline std::string file_in(const Site& site, const std::string& name) {
  for (const OutputFile& file : site.files) {
    if (file.name == name) return file.bytes;
  }
  FAIL("no file " << name);
  return {};
}

inline bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// What is thrown, in words; empty when nothing is.
template <class Error, class Action>
std::string thrown(Action action) {
  try {
    action();
  } catch (const Error& error) {
    return error.what();
  }
  return {};
}

}  // namespace castplan::club
