// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <iostream>
#include <memory>

#include "castplan/season/profile.hpp"
#include "cli/verb.hpp"

namespace castplan {

std::function<void()> declare_species(CLI::App& app) {
  auto name = std::make_shared<std::string>();
  app.add_option("NAME", *name, "the profile to show; without it, the list");
  return [name] {
    if (!name->empty()) {
      std::cout << species(*name).text;
      return;
    }
    for (const std::string_view each : species_names()) {
      const Profile& profile = species(each);
      std::cout << fmt::format("{:<18}{} ({})\n", each, profile.title, profile.latin);
    }
  };
}

}  // namespace castplan
