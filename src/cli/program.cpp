// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/cli/program.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <iostream>
#include <vector>

#include "castplan/geo/error.hpp"
#include "castplan/write/folder.hpp"
#include "cli/interrupt.hpp"
#include "cli/verb.hpp"

namespace castplan {

namespace {

enum ExitCode { kDone = 0, kBug = 1, kUsage = 2, kInput = 3, kOutput = 4, kInterrupted = 130 };

int fail(ExitCode code, std::string_view text) {
  std::cerr << "castplan: " << text << '\n';
  return code;
}

std::string unknown_verb(std::string_view written) {
  std::vector<std::string_view> names;
  for (const Verb& verb : verbs()) names.push_back(verb.name);
  const std::string nearest = nearest_name(written, names);
  return fmt::format("there is no verb '{}'{}; known are {}", written,
                     nearest.empty() ? "" : fmt::format(", did you mean '{}'?", nearest), listed(names));
}

bool is_verb(std::string_view word) {
  for (const Verb& verb : verbs()) {
    if (verb.name == word) return true;
  }
  return false;
}

// The parser has exit codes of its own; ours are few and fixed.
int parse_and_run(int count, char** words) {
  CLI::App app{
      "castplan plans where to cast: it reads lake depths, finds the places where a big predator holds and\n"
      "ranks casting spots for a date, a water temperature and a species."};
  app.name("castplan");
  app.set_version_flag("--version", std::string("castplan ") + std::string(version()));
  app.require_subcommand(1);
  app.footer("`castplan VERB --help` lists the options of a verb. Not for navigation.");
  std::vector<std::pair<CLI::App*, std::function<void()>>> declared;
  for (const Verb& verb : verbs()) {
    CLI::App* sub = app.add_subcommand(std::string(verb.name), std::string(verb.what));
    declared.emplace_back(sub, verb.declare(*sub));
  }
  if (count > 1 && words[1][0] != '-' && !is_verb(words[1])) throw UsageError(unknown_verb(words[1]));
  try {
    app.parse(count, words);
  } catch (const CLI::Success& wanted) {  // --help, --version
    return app.exit(wanted);
  } catch (const CLI::ParseError& error) {
    throw UsageError(fmt::format("{}; `castplan {}--help` lists the options", error.what(),
                                 count > 1 && is_verb(words[1]) ? std::string(words[1]) + " " : ""));
  }
  for (const auto& [sub, run_verb] : declared) {
    if (sub->parsed()) run_verb();
  }
  return kDone;
}

}  // namespace

int run(int count, char** words) {
  watch_for_interrupt();
  try {
    return parse_and_run(count, words);
  } catch (const UsageError& error) {
    return fail(kUsage, error.what());
  } catch (const InputError& error) {
    return fail(kInput, error.what());
  } catch (const OutputError& error) {
    return fail(kOutput, error.what());
  } catch (const Interrupted&) {
    abandon_write();
    return fail(kInterrupted, "interrupted; nothing was written");
  } catch (const std::bad_alloc&) {
    return fail(kBug, "out of memory; a coarser raster or a smaller part of the lake would fit");
  } catch (const std::exception& error) {
    abandon_write();
    return fail(kBug, fmt::format("a bug of ours, please report it: {}", error.what()));
  }
}

}  // namespace castplan
