// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

/// Which file may include what, read from the castplan_layer lines of CMakeLists.txt, so that the list stands once.
namespace include_rules {

namespace fs = std::filesystem;

/// By layer: the layers that it may include, itself among them.
using Layers = std::map<std::string, std::set<std::string>>;

inline std::string text_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + path.string());
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// Throws when a layer names one that does not stand above it in the file: then the order would not be one-way.
inline Layers layers_in(const fs::path& cmake_lists) {
  const std::string text = text_of(cmake_lists);
  static const std::regex call(R"(\n\s*castplan_layer\(\s*([a-z]+)([^)]*)\))");
  Layers layers;
  for (std::sregex_iterator at(text.begin(), text.end(), call), end; at != end; ++at) {
    const std::string name = (*at)[1];
    auto& allowed = layers[name];
    allowed.insert(name);
    std::istringstream words((*at)[2].str());
    bool uses = false;
    for (std::string word; words >> word;) {
      if (word == "USES" || word == "LINK") {
        uses = word == "USES";
      } else if (uses) {
        if (word == name || !layers.contains(word))
          throw std::runtime_error(name + " uses " + word + ", which is not listed above it");
        allowed.insert(word);
      }
    }
  }
  return layers;
}

/// Libraries with one home: a pattern for the header's name and the only folder of src/ whose files may include it
/// ("" for any). None of them may stand in a header under include/.
struct Home {
  std::string library;
  std::regex header;
  std::string layer;
};

inline const std::vector<Home>& homes() {
  static const std::vector<Home> table = {
      {"GDAL", std::regex(R"((gdal|ogr|cpl|gnm|memdataset|vrtdataset)[a-z0-9_]*\.h)"), "io"},
      {"GEOS", std::regex(R"(geos_c\.h|geos/.*|geos\.h)"), "geo"},
      {"PROJ", std::regex(R"(proj\.h|proj_[a-z_]*\.h|proj/.*|geodesic\.h)"), "geo"},
      {"toml++", std::regex(R"(toml\+\+/.*|toml\.hpp|toml\.h)"), ""},
      {"fmt", std::regex(R"(fmt/.*)"), ""},
      {"CLI11", std::regex(R"(CLI/.*|CLI11\.hpp)"), ""},
      {"pugixml", std::regex(R"(pugixml\.hpp|pugiconfig\.hpp)"), ""},
      {"oneTBB", std::regex(R"(tbb/.*|oneapi/.*)"), ""},
      {"cairo", std::regex(R"(cairo.*\.h|cairo/.*)"), "write"},
      {"FreeType", std::regex(R"(ft2build\.h|freetype/.*)"), "write"},
      {"qpdf", std::regex(R"(qpdf/.*)"), "write"},
      {"nlohmann-json", std::regex(R"(nlohmann/.*)"), "publish"},
      {"OpenSSL", std::regex(R"(openssl/.*)"), ""},
  };
  return table;
}

/// The headers that a source text includes, in order.
inline std::vector<std::string> includes_of(const std::string& text) {
  static const std::regex line(R"(^[ \t]*#[ \t]*include[ \t]*[<"]([^>"]+)[>"])",
                               std::regex::ECMAScript | std::regex::multiline);
  std::vector<std::string> found;
  for (std::sregex_iterator at(text.begin(), text.end(), line), end; at != end; ++at) found.push_back((*at)[1]);
  return found;
}

/// What is wrong with one include, or empty. layer: of the file, empty for src/main.cpp, which may include anything
/// public.
inline std::string offence(const std::string& included, const std::string& layer, bool is_public,
                           const Layers& layers) {
  static const std::regex of_ours(R"(castplan/([a-z]+)/[^/]+)");
  static const std::regex private_header(R"(([a-z]+)/[^/]+\.hpp)");
  std::smatch match;
  if (std::regex_match(included, match, of_ours)) {
    if (!layers.contains(match[1])) return "no layer of that name";
    if (!layer.empty() && !layers.at(layer).contains(match[1]))
      return layer + " may not include " + match[1].str() + " (castplan_layer in CMakeLists.txt)";
    return {};
  }
  for (const Home& home : homes()) {
    if (!std::regex_match(included, home.header)) continue;
    if (is_public) return home.library + " may not stand in a public header";
    if (!home.layer.empty() && home.layer != layer) return home.library + " belongs in src/" + home.layer + " only";
    return {};
  }
  if (std::regex_match(included, match, private_header) && layers.contains(match[1])) {
    if (is_public) return "a public header may not include a private one";
    if (match[1] != layer) return "a private header of " + match[1].str() + " belongs to that layer alone";
  }
  return {};
}

/// Every include under root/include and root/src that is not allowed: "src/geo/x.cpp includes y: why", sorted.
inline std::vector<std::string> offences(const fs::path& root, const Layers& layers) {
  std::vector<std::string> found;
  for (const std::string top : {"include/castplan", "src"}) {
    for (const auto& entry : fs::recursive_directory_iterator(root / top)) {
      const std::string ending = entry.path().extension().string();
      if (ending != ".hpp" && ending != ".cpp") continue;
      const fs::path inside = fs::relative(entry.path(), root / top);
      const std::string layer = inside.has_parent_path() ? inside.begin()->string() : "";
      const std::string file = top + "/" + inside.string();
      if (!layer.empty() && !layers.contains(layer)) {
        found.push_back(file + ": its folder is no layer of CMakeLists.txt");
        continue;
      }
      for (const std::string& included : includes_of(text_of(entry.path()))) {
        const std::string why = offence(included, layer, top != "src", layers);
        if (!why.empty()) found.push_back(file + " includes " + included + ": " + why);
      }
    }
  }
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace include_rules
