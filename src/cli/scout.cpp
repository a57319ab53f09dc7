// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <memory>

#include "castplan/grid/sweep.hpp"
#include "castplan/write/folder.hpp"
#include "castplan/write/text.hpp"
#include "cli/interrupt.hpp"
#include "cli/make_plan.hpp"
#include "cli/report.hpp"
#include "cli/verb.hpp"

namespace castplan {

namespace {

std::vector<OutputFile> written(const Plan& plan, const std::vector<std::string>& chosen) {
  std::vector<OutputFile> files;
  for (const Format& format : formats()) {
    if (std::find(chosen.begin(), chosen.end(), format.name) == chosen.end()) continue;
    for (OutputFile& file : format.write(plan)) files.push_back(std::move(file));
  }
  return files;
}

// summary.json plus the paths of what was written
std::string json_with_files(const Plan& plan, const std::string& folder, const std::vector<OutputFile>& files) {
  JsonText list;
  list.begin_array();
  for (const OutputFile& file : files) list.text((std::filesystem::path(folder) / file.name).string());
  list.end_array();
  std::string summary = summary_json(plan);
  summary.erase(summary.find_last_of('}'));
  while (!summary.empty() && std::isspace(static_cast<unsigned char>(summary.back()))) summary.pop_back();
  return summary + ",\n  \"files\": " + list.str() + "\n}\n";
}

void scout(const ScoutWords& words) {
  const ScoutOptions options = understand(words);
  set_threads(options.threads);
  const bool show = !options.quiet && isatty(STDERR_FILENO) != 0;
  const auto progress = [&](std::string_view stage) {
    if (show) std::cerr << fmt::format("castplan: {} ...\n", stage);
  };
  const MadePlan made = make_plan(options, progress);
  if (!options.quiet) {
    for (const std::string& note : made.plan.notes) std::cerr << "castplan: note: " << note << '\n';
  }
  progress("writing the plan");
  std::vector<OutputFile> files = written(made.plan, options.formats);
  if (has_filled_log(options.out) &&
      std::erase_if(files, [](const auto& file) { return file.name == "log.csv"; }) > 0) {
    if (!options.quiet) std::cerr << "castplan: note: log.csv holds notes and is kept as it is\n";
  }
  finish_uninterrupted();
  write_folder(options.out, files);
  if (options.json) {
    std::cout << json_with_files(made.plan, options.out, files);
  } else if (!options.quiet) {
    std::cout << report(made.plan, options.out, files);
  }
}

}  // namespace

std::function<void()> declare_scout(CLI::App& app) {
  auto words = std::make_shared<ScoutWords>();
  declare_options(app, *words);
  return [words] { scout(*words); };
}

}  // namespace castplan
