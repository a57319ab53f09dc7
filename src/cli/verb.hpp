// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <span>
#include <string_view>

namespace CLI {
class App;
}

namespace castplan {

/// One row a verb: adding one is a file and a row. `declare` gives the parser the verb's options and returns what to
/// do once they are parsed.
struct Verb {
  std::string_view name;
  std::string_view what;  ///< one line for help
  std::function<void()> (*declare)(CLI::App&);
};
std::span<const Verb> verbs();

std::function<void()> declare_scout(CLI::App& app);
std::function<void()> declare_grid(CLI::App& app);
std::function<void()> declare_inspect(CLI::App& app);
std::function<void()> declare_publish(CLI::App& app);
std::function<void()> declare_species(CLI::App& app);

}  // namespace castplan
