// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

namespace fs = std::filesystem;

namespace {

using Homes = std::map<std::string, std::vector<std::string>>;  ///< by full name of a type: where it is defined

/// The type that a line begins to define, or nothing: a declaration ends before any brace.
std::string defined_type(const std::string& line) {
  static const std::regex start(R"(^(?:struct|class|union|enum class|enum) (\w+)\b(?!::)[^;{]*(?:\{.*)?$)");
  std::smatch found;
  return std::regex_match(line, found, start) ? found[1].str() : std::string{};
}

/// Adds the types that a source defines in named namespaces, outside other types. Two of one name are two meanings of
/// one symbol, and the linker keeps either one's functions (the One Definition Rule; g++ sees it only with -flto
/// -Wodr).
void add_types(std::istream& source, const std::string& file, Homes& homes) {
  static const std::regex opened(R"(^(?:inline )?namespace ?([A-Za-z0-9_:]*) ?\{$)");
  std::vector<std::string> spaces;
  std::smatch found;
  for (std::string line; std::getline(source, line);) {
    if (std::regex_match(line, found, opened)) spaces.push_back(found[1]);
    if (line.starts_with("}  // namespace") && !spaces.empty()) spaces.pop_back();
    const std::string type = defined_type(line);
    const bool hidden = std::find(spaces.begin(), spaces.end(), "") != spaces.end();
    if (type.empty() || hidden) continue;
    std::string name;
    for (const std::string& space : spaces) name += space + "::";
    homes[name + type].push_back(file);
  }
}

Homes types_of(const fs::path& root) {
  Homes homes;
  for (const char* folder : {"include", "src"}) {
    for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
      const std::string kind = entry.path().extension();
      if (kind != ".hpp" && kind != ".cpp") continue;
      std::ifstream source(entry.path());
      add_types(source, fs::relative(entry.path(), root), homes);
    }
  }
  return homes;
}

}  // namespace

TEST_CASE("each type of the library is defined once") {
  const Homes homes = types_of(CASTPLAN_SOURCE_DIR);
  REQUIRE(homes.size() > 200);
  REQUIRE(homes.at("castplan::Plan").size() == 1);
  for (const auto& [name, files] : homes) {
    if (files.size() > 1) FAIL_CHECK(name << " is defined in " << files[0] << " and in " << files[1]);
  }
}

TEST_CASE("types of one name are told apart by their namespace, and hidden ones do not count") {
  Homes homes;
  std::istringstream one(
      "namespace castplan {\nstruct Pass {\n  struct Inner {\n  };\n};\nstruct Told;\nclass Small { int x; };\n"
      "namespace {\nstruct Own {\n};\n}  // namespace\n}  // namespace castplan\n");
  std::istringstream two("namespace castplan::survey {\nstruct Pass {\n};\n}  // namespace castplan::survey\n");
  std::istringstream three(
      "namespace castplan {\nenum class Pass : int {\n};\nclass Small final : Told {\n};\n}  // namespace castplan\n");
  add_types(one, "one", homes);
  add_types(two, "two", homes);
  REQUIRE(homes ==
          Homes{{"castplan::Pass", {"one"}}, {"castplan::Small", {"one"}}, {"castplan::survey::Pass", {"two"}}});
  add_types(three, "three", homes);
  REQUIRE(homes.at("castplan::Pass") == std::vector<std::string>{"one", "three"});
  REQUIRE(homes.at("castplan::Small") == std::vector<std::string>{"one", "three"});
}
