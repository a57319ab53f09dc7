// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "castplan/io/load.hpp"
#include "io/rasters.hpp"
#include "support/programs.hpp"

using namespace castplan;
using namespace castplan::rasters;
using Catch::Matchers::Contains;

namespace {

/// The shore of the elliptic lake, by chords.
Polygons ellipse() {
  Ring ring;
  for (int i = 0; i < 720; ++i) {
    const double t = i * std::numbers::pi / 360;
    ring.push_back({kHalfWidth * std::cos(t), kHalfHeight * std::sin(t)});
  }
  ring.push_back(ring.front());
  return {{ring, {}}};
}

/// The closed form at cell centres inside the shore, NaN outside: what gridding hands over.
GriddedDepth gridded() {
  const Frame frame{{-300, 250}, Metres(2), 250, 300};
  GriddedDepth out{Grid<Metres32>(frame, Metres32(std::numeric_limits<float>::quiet_NaN())), home(), ellipse()};
  for (std::size_t i = 0; i < out.depth.size(); ++i) {
    const double depth = depth_at_home(frame.centre(out.depth.cell_of(i)));
    if (depth > 0) out.depth[i] = Metres32(static_cast<float>(depth));
  }
  return out;
}

struct Folder {
  programs::Scratch scratch;
  LakeFile file(const std::string& more = "") {
    scratch.write("run1.csv", "lon,lat,depth_m\n-39.2,45.5,12\n");
    scratch.write("run2.gpx", "<gpx/>");
    scratch.write("c.geojson", R"({"type":"FeatureCollection","features":[]})");
    return read_lake_file(scratch.write("k.toml",
                                        "name = \"K\"\n[depth]\n[[depth.soundings]]\nfile = \"run1.csv\"\n"
                                        "[[depth.soundings]]\nfile = \"run2.gpx\"\n[[depth.contours]]\nfile = "
                                        "\"c.geojson\"\n" +
                                            more));
  }
};

}  // namespace

TEST_CASE("a gridded lake has the figures of the closed form, and its soundings as inputs") {
  Folder folder;
  GriddedDepth made = gridded();
  made.error = Metres(0.17);
  made.notes = {"made here"};
  const LoadedLake loaded = lake_from_depth(folder.file(), std::move(made));
  CHECK(loaded.lake.area.value() == Approx(kArea).epsilon(0.005));
  CHECK(loaded.lake.volume.value() == Approx(kVolume).epsilon(0.005));
  CHECK(loaded.lake.cut_share == 0);
  CHECK(loaded.lake.depth_error == Metres(0.17));
  CHECK(loaded.lake.depth_error_known);
  CHECK(loaded.notes == std::vector<std::string>{"made here"});
  std::vector<std::string> names;
  for (const InputFile& input : loaded.inputs) names.push_back(input.name);
  CHECK(names == std::vector<std::string>{"c.geojson", "k.toml", "run1.csv", "run2.gpx"});
  // the digest by another program
  const auto digest = programs::run("sha256sum " + folder.scratch.path("run1.csv"));
  CHECK(digest.text.substr(0, 64) == loaded.inputs.at(2).sha256);
}

TEST_CASE("today's level moves the floor, and what falls dry leaves the lake") {
  Folder folder;
  // the paraboloid with 3 m less water: axes shrink by sqrt(9 / 12), so that area is 9 / 12 and volume (9 / 12)^2
  const LoadedLake low = lake_from_depth(folder.file("[level]\noffset = \"-3 m\"\n"), gridded());
  CHECK(low.lake.max_depth.value() == Approx(9).margin(0.01));
  CHECK(low.lake.area.value() == Approx(kArea * 0.75).epsilon(0.005));
  CHECK(low.lake.volume.value() == Approx(kVolume * 0.5625).epsilon(0.005));
  CHECK(area(low.lake.outline).value() == Approx(kArea * 0.75).epsilon(0.005));
  CHECK(low.lake.cut_share == 0);
  CHECK(low.surface_text == "depths in metres below today's surface, 3.00 m under the surveyed one");

  const LoadedLake high = lake_from_depth(folder.file("[level]\noffset = \"1 m\"\n"), gridded());
  CHECK(high.lake.max_depth.value() == Approx(13).margin(0.01));
  CHECK(high.lake.area.value() == Approx(kArea).epsilon(0.005));
  CHECK_THAT(high.notes.at(0), Contains("run1.csv and 2 more: gives no heights on land"));
}

TEST_CASE("a gridded lake without a shore, and a lake that is not gridded yet") {
  Folder folder;
  GriddedDepth made = gridded();
  made.shoreline.clear();
  CHECK_THAT(complaint([&] { lake_from_depth(folder.file(), made); }), Contains("no shoreline; give one"));
  CHECK_THAT(complaint([&] { load_lake(folder.file()); }), Contains("has soundings or contours and no depth raster"));
  LakeFile gone = folder.file();
  gone.contours[0].path = folder.scratch.path("gone.shp");
  CHECK_THAT(complaint([&] { lake_from_depth(gone, gridded()); }),
             Contains("k.toml: depth.contours.file = \"gone.shp\": no such file"));
}
