// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "cli/castplan_run.hpp"

using namespace castplan::programs;

TEST_CASE("Ctrl-C ends with 130, leaves nothing behind and the older plan as it was") {
  const Scratch scratch;
  const std::string folder = scratch.path("plan");
  REQUIRE(run_castplan(scratch, "scout " + kSample + " --quiet --formats geojson --out " + folder).code == 0);
  const auto before = files_in(folder);
  // large enough to run for some seconds: the signal comes well before its end
  const std::string small = ascii_grid(scratch, "bowl.asc", 40, 40, small_bowl);
  REQUIRE(run("gdal_translate -q -outsize 4000 4000 -r bilinear " + small + " " + scratch.path("large.tif")).code == 0);
  // a shell of its own, since background jobs of a script ignore SIGINT unless they ask for it
  const Result result = run("timeout --preserve-status -s INT 0.4 " CASTPLAN_PROGRAM " scout " +
                            scratch.path("large.tif") + " --unit m --out " + folder);
  INFO(result.text);
  CHECK(result.code == 130);
  CHECK(result.text.find("interrupted") != std::string::npos);
  CHECK(result.text.find("Lake Ossilby") != std::string::npos);
  CHECK(files_in(folder) == before);
}
