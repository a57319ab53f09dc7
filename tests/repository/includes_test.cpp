// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <unistd.h>

#include <catch2/catch.hpp>

#include "repository/include_rules.hpp"

namespace fs = std::filesystem;
using namespace include_rules;

namespace {

const fs::path kRoot = CASTPLAN_SOURCE_DIR;

/// A small tree of sources in a folder of its own, removed at the end.
struct Tree {
  fs::path root = fs::temp_directory_path() / ("castplan_includes_" + std::to_string(getpid()));

  Tree() {
    fs::remove_all(root);
    write("CMakeLists.txt",
          "project(x)\ncastplan_layer(geo LINK GEOS::geos_c)\ncastplan_layer(grid USES geo LINK TBB::tbb)\n"
          "castplan_layer(io USES geo grid\n               LINK GDAL::GDAL)\n");
    write("include/castplan/geo/a.hpp", "#include <vector>\n");
    write("include/castplan/grid/b.hpp", "#include \"castplan/geo/a.hpp\"\n");
    write("src/geo/own.hpp", "#include <geos_c.h>\n");
    write("src/geo/a.cpp", "#include \"castplan/geo/a.hpp\"\n#include \"geo/own.hpp\"\n#include <proj.h>\n");
    write("src/io/c.cpp", "#include <gdal_priv.h>\n#include \"castplan/grid/b.hpp\"\n#include <toml++/toml.h>\n");
    write("src/main.cpp", "#include \"castplan/io/c.hpp\"\n");
  }
  ~Tree() { fs::remove_all(root); }
  Tree(const Tree&) = delete;
  Tree& operator=(const Tree&) = delete;

  void write(const std::string& path, const std::string& text) const {
    fs::create_directories((root / path).parent_path());
    std::ofstream(root / path) << text;
  }
  [[nodiscard]] std::vector<std::string> offences() const {
    return include_rules::offences(root, layers_in(root / "CMakeLists.txt"));
  }
};

}  // namespace

TEST_CASE("includes point one way, and heavy libraries stay at home") {
  const Layers layers = layers_in(kRoot / "CMakeLists.txt");
  REQUIRE(layers.size() >= 9);
  REQUIRE(layers.at("geo") == std::set<std::string>{"geo"});
  for (const std::string& text : offences(kRoot, layers)) FAIL_CHECK(text);
}

TEST_CASE("a tree that keeps the rules has no offences") {
  const Tree tree;
  REQUIRE(layers_in(tree.root / "CMakeLists.txt").at("io") == std::set<std::string>{"geo", "grid", "io"});
  REQUIRE(tree.offences().empty());
}

TEST_CASE("each broken rule is found") {
  struct Case {
    std::string file, text, said;
  };
  const std::vector<Case> cases = {
      {"include/castplan/geo/up.hpp", "#include \"castplan/grid/b.hpp\"\n", "geo may not include grid"},
      {"src/grid/up.cpp", "#include <castplan/io/c.hpp>\n", "grid may not include io"},
      {"src/grid/up.cpp", "  #  include \"castplan/nowhere/c.hpp\"\n", "no layer of that name"},
      {"src/grid/raster.cpp", "#include <gdal.h>\n", "GDAL belongs in src/io only"},
      {"src/main.cpp", "#include \"ogrsf_frmts.h\"\n", "GDAL belongs in src/io only"},
      {"src/grid/raster.cpp", "#include <cpl_conv.h>\n", "GDAL belongs in src/io only"},
      {"src/io/shape.cpp", "#include <geos_c.h>\n", "GEOS belongs in src/geo only"},
      {"src/io/shape.cpp", "#include <proj.h>\n", "PROJ belongs in src/geo only"},
      {"src/io/shape.cpp", "#include <geodesic.h>\n", "PROJ belongs in src/geo only"},
      {"include/castplan/io/c.hpp", "#include <gdal.h>\n", "GDAL may not stand in a public header"},
      {"include/castplan/geo/c.hpp", "#include <geos_c.h>\n", "GEOS may not stand in a public header"},
      {"include/castplan/io/c.hpp", "#include <toml++/toml.h>\n", "toml++ may not stand in a public header"},
      {"include/castplan/io/c.hpp", "#include <fmt/core.h>\n", "fmt may not stand in a public header"},
      {"include/castplan/io/c.hpp", "#include <CLI/CLI.hpp>\n", "CLI11 may not stand in a public header"},
      {"include/castplan/io/c.hpp", "#include <pugixml.hpp>\n", "pugixml may not stand in a public header"},
      {"include/castplan/io/c.hpp", "#include <tbb/parallel_for.h>\n", "oneTBB may not stand in a public header"},
      {"include/castplan/io/c.hpp", "#include <oneapi/tbb.h>\n", "oneTBB may not stand in a public header"},
      {"include/castplan/io/c.hpp", "#include <openssl/sha.h>\n", "OpenSSL may not stand in a public header"},
      {"src/io/c.cpp", "#include <cairo-pdf.h>\n", "cairo belongs in src/write only"},
      {"src/io/c.cpp", "#include <ft2build.h>\n", "FreeType belongs in src/write only"},
      {"src/io/c.cpp", "#include <qpdf/QPDF.hh>\n", "qpdf belongs in src/write only"},
      {"include/castplan/geo/c.hpp", "#include \"geo/own.hpp\"\n", "a public header may not include a private one"},
      {"src/grid/b.cpp", "#include \"geo/own.hpp\"\n", "a private header of geo belongs to that layer alone"},
      {"src/extra/b.cpp", "\n", "its folder is no layer"},
  };
  for (const Case& broken : cases) {
    const Tree tree;
    tree.write(broken.file, broken.text);
    const auto found = tree.offences();
    INFO(broken.file << ": " << broken.text);
    REQUIRE(found.size() == 1);
    CHECK_THAT(found.front(), Catch::StartsWith(broken.file) && Catch::Contains(broken.said));
  }
}

TEST_CASE("a list that does not point one way is refused") {
  const Tree tree;
  tree.write("CMakeLists.txt", "\ncastplan_layer(geo USES grid)\ncastplan_layer(grid USES geo)\n");
  REQUIRE_THROWS_WITH(layers_in(tree.root / "CMakeLists.txt"), Catch::Contains("geo uses grid"));
}
