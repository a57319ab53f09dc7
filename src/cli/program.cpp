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
#include "cli/options.hpp"
#include "cli/verb.hpp"

namespace castplan {

namespace {

enum ExitCode { kDone = 0, kBug = 1, kUsage = 2, kInput = 3, kOutput = 4 };

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

std::string as_written(const CLI::App& verb, const std::string& option) {
  const CLI::Option* found = verb.get_option_no_throw(option);
  return found == nullptr || found->results().empty() ? "" : found->results().front();
}

// Whatever went wrong, an older plan in the folder is untouched; say whose it is, so that nobody takes it for new.
void say_what_stands(const CLI::App& verb) {
  if (verb.get_option_no_throw("--out") == nullptr) return;
  const std::string folder = out_folder(as_written(verb, "--out"), as_written(verb, "LAKE"));
  const std::string plan = plan_in(folder);
  if (!plan.empty()) std::cerr << fmt::format("castplan: {} still holds {}\n", folder, plan);
}

// The parser's words, with the nearest known option where one is unknown.
std::string wrong_words(const CLI::App& verb, const CLI::ParseError& error) {
  std::vector<std::string_view> known;
  for (const CLI::Option* option : verb.get_options()) {
    if (option->get_lnames().empty()) continue;
    known.emplace_back(option->get_lnames().front());
  }
  for (const std::string& word : verb.remaining()) {
    if (!word.starts_with("--")) continue;
    const std::string name = word.substr(2, word.find('=') - 2);
    const std::string nearest = nearest_name(name, known);
    return fmt::format("there is no option --{}{}", name,
                       nearest.empty() ? "" : fmt::format(", did you mean --{}?", nearest));
  }
  return error.what();
}

// A value that is blank, as from a script's variable that was never set, would else pass for one not given.
void refuse_blank_values(const CLI::App& verb) {
  for (const CLI::Option* option : verb.get_options()) {
    if (option->get_expected_min() == 0) continue;  // a flag
    for (const std::string& value : option->results()) {
      if (value.find_first_not_of(" \t\r\n") != std::string::npos) continue;
      throw UsageError(fmt::format("{} is given without a value; give one, or leave it out", option->get_name()));
    }
  }
}

// The parser has exit codes of its own; ours are few and fixed.
void parse_and_run(CLI::App& app, int count, char** words) {
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
  const CLI::App* verb = count > 1 && is_verb(words[1]) ? app.get_subcommand(words[1]) : nullptr;
  try {
    app.parse(count, words);
    if (verb) refuse_blank_values(*verb);
    if (verb) on_interrupt([verb] { say_what_stands(*verb); });
    for (const auto& [sub, run_verb] : declared) {
      if (sub->parsed()) run_verb();
    }
  } catch (const CLI::Success& wanted) {  // --help, --version
    app.exit(wanted);
  } catch (const CLI::ParseError& error) {
    if (verb) say_what_stands(*verb);
    throw UsageError(fmt::format("{}; `castplan {}--help` lists the options", wrong_words(verb ? *verb : app, error),
                                 verb ? verb->get_name() + " " : ""));
  } catch (...) {
    if (verb) say_what_stands(*verb);
    throw;
  }
}

int run_words(int count, char** words) {
  CLI::App app{
      "castplan plans where to cast: it reads lake depths, finds the places where a big predator holds and\n"
      "ranks casting spots for a date, a water temperature and a species."};
  const struct Finish {  // `app` goes, and what an interruption would say of it
    ~Finish() { finish_uninterrupted(); }
  } finish;
  parse_and_run(app, count, words);
  std::cout.flush();
  if (!std::cout) throw OutputError("what was asked for could not be printed: standard output is full or closed");
  return kDone;
}

}  // namespace

int run(int count, char** words) {
  watch_for_interrupt();
  try {
    return run_words(count, words);
  } catch (const UsageError& error) {
    return fail(kUsage, error.what());
  } catch (const InputError& error) {
    return fail(kInput, error.what());
  } catch (const OutputError& error) {
    return fail(kOutput, error.what());
  } catch (const std::bad_alloc&) {
    return fail(kBug, "out of memory; a coarser raster or a smaller part of the lake would fit");
  } catch (const std::exception& error) {
    abandon_write();
    return fail(kBug, fmt::format("a bug of ours, please report it: {}", error.what()));
  }
}

}  // namespace castplan
