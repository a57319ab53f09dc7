// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "castplan/write/folder.hpp"

#include <sys/resource.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <map>
#include <thread>

#include "castplan/geo/error.hpp"
#include "castplan/write/text.hpp"
#include "support/plans.hpp"
#include "support/programs.hpp"

using namespace castplan;
namespace fs = std::filesystem;

namespace {

std::vector<OutputFile> files_of(const Plan& plan) {
  std::vector<OutputFile> out = waypoint_files(plan);
  out.push_back({"features.geojson", features_geojson(plan)});
  out.push_back({"spots.geojson", spots_geojson(plan)});
  out.push_back({"summary.json", summary_json(plan)});
  return out;
}

Plan one_phase(const std::string& lake = "Kestrel Mere") {
  sample::Options options;
  options.one_phase = true;
  options.lake_name = lake;
  return sample::plan(options);
}

// Everything in a folder: path to bytes, folders end with "/".
std::map<std::string, std::string> contents(const std::string& folder) {
  std::map<std::string, std::string> out;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    const std::string name = fs::relative(entry.path(), folder).string();
    entry.is_directory() ? out[name + "/"] = "" : out[name] = programs::read(entry.path().string());
  }
  return out;
}

std::string message_of(const std::string& folder, const std::vector<OutputFile>& files) {
  try {
    write_folder(folder, files);
  } catch (const OutputError& error) {
    return error.what();
  }
  return "no error";
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("a plan is written whole, into a folder that was missing") {
  const programs::Scratch scratch;
  const auto files = files_of(one_phase());
  write_folder(scratch.path("deep/er/out"), files);
  std::map<std::string, std::string> expected;
  for (const OutputFile& file : files) expected[file.name] = file.bytes;
  CHECK(contents(scratch.path("deep/er/out")) == expected);
  CHECK(plan_in(scratch.path("deep/er/out")) == "the plan of Kestrel Mere, 2026-05-02");
  CHECK(plan_in(scratch.path("deep")).empty());
}

TEST_CASE("a trailing slash and a relative path mean the same folder") {
  const programs::Scratch scratch;
  write_folder(scratch.path("out/"), files_of(one_phase()));
  CHECK(plan_in(scratch.path("out")) == "the plan of Kestrel Mere, 2026-05-02");
  const fs::path before = fs::current_path();
  fs::current_path(scratch.path());
  write_folder("beside", files_of(one_phase()));
  fs::current_path(before);
  CHECK(contents(scratch.path("beside")) == contents(scratch.path("out")));
}

TEST_CASE("a new plan replaces the old one whole and leaves what is not ours") {
  const programs::Scratch scratch;
  write_folder(scratch.path("out"), files_of(sample::plan()));
  CHECK(plan_in(scratch.path("out")) == "the plan of Kestrel Mere, pre-spawn, early-summer");
  const std::map<std::string, std::string> mine{{"notes.txt", "mine"},
                                                {"log.csv", "caught one"},
                                                {"waypoints-mine.gpx", "<gpx creator=\"other\"/>"},
                                                {".hidden", "mine"}};
  for (const auto& [name, bytes] : mine) scratch.write("out/" + name, bytes);
  for (const char* older : {"passes.geojson", "sheet.pdf", "map.html", "spots.csv", "places.kml", "castplan.gpkg",
                            "map.png", "map.svg", "fragment.html"}) {
    scratch.write(std::string("out/") + older, "older");
  }
  fs::create_directory(scratch.path("out/photos"));
  REQUIRE(fs::exists(scratch.path("out/waypoints-pre-spawn.gpx")));

  const auto files = files_of(one_phase("Grebe Tarn"));
  write_folder(scratch.path("out"), files);
  std::map<std::string, std::string> expected = mine;
  for (const OutputFile& file : files) expected[file.name] = file.bytes;
  expected["photos/"] = "";
  CHECK(contents(scratch.path("out")) == expected);
  CHECK(plan_in(scratch.path("out")) == "the plan of Grebe Tarn, 2026-05-02");
}

TEST_CASE("a stop in a folder with an older plan leaves no spot in any file") {
  const programs::Scratch scratch;
  write_folder(scratch.path("out"), files_of(sample::plan()));
  sample::Options options;
  options.one_phase = options.stop = true;
  write_folder(scratch.path("out"), files_of(sample::plan(options)));
  const std::string id = sample::plan().phases[1].spots[0].id;
  for (const auto& [name, bytes] : contents(scratch.path("out"))) {
    CAPTURE(name);
    CHECK_FALSE(says(bytes, id));
    CHECK_FALSE(says(bytes, "<type>spot</type>"));
    CHECK_FALSE(says(bytes, "\"rank\""));
  }
}

TEST_CASE("a folder that cannot be written: where, what, why, what to do, and what still stands") {
  const programs::Scratch scratch;
  const std::string file = scratch.write("plain", "a file");
  const auto files = files_of(one_phase());
  CHECK(message_of(file, files) ==
        file +
            ": is not a folder: Not a directory; a file stands where a folder is needed: move it, or choose another "
            "folder with --out; " +
            file + " is as it was");
  CHECK(says(message_of(file + "/below", files), "Not a directory"));
  // procfs takes no folders, from root neither
  const std::string refused = message_of("/proc/castplan/out", files);
  CHECK(says(refused, "/proc/castplan"));
  CHECK(says(refused, "choose another folder with --out"));
  CHECK(programs::read(file) == "a file");
  CHECK(contents(scratch.path()).size() == 1);
}

TEST_CASE("a write that stops in the middle of a file leaves the folder as it was") {
  const programs::Scratch scratch;
  write_folder(scratch.path("out"), files_of(one_phase("Kestrel Mere")));
  const auto before = contents(scratch.path("out"));
  auto files = files_of(one_phase("Grebe Tarn"));
  files.push_back({"map.html", std::string(300'000, 'x')});
  // a limit on the size of files stands in for a full disk: the first part of a write succeeds, the next fails with
  // EFBIG instead of ENOSPC (setrlimit(2)); both come out of the same call
  rlimit old{};
  REQUIRE(::getrlimit(RLIMIT_FSIZE, &old) == 0);
  const auto handler = std::signal(SIGXFSZ, SIG_IGN);
  const rlimit small{200'000, old.rlim_max};
  REQUIRE(::setrlimit(RLIMIT_FSIZE, &small) == 0);
  const std::string message = message_of(scratch.path("out"), files);
  REQUIRE(::setrlimit(RLIMIT_FSIZE, &old) == 0);
  std::signal(SIGXFSZ, handler);
  CHECK(says(message, "map.html: cannot be written: File too large; free some space"));
  CHECK(says(message, "the plan of Kestrel Mere, 2026-05-02 is still in"));
  CHECK(contents(scratch.path("out")) == before);
}

TEST_CASE("a rename that fails midway is rolled back to the old plan") {
  const programs::Scratch scratch;
  write_folder(scratch.path("out"), files_of(sample::plan()));
  // a folder in the place of an output that comes after others in the order of writing
  fs::remove(scratch.path("out/spots.geojson"));
  fs::create_directory(scratch.path("out/spots.geojson"));
  scratch.write("out/spots.geojson/keep", "mine");
  const auto before = contents(scratch.path("out"));
  const std::string message = message_of(scratch.path("out"), files_of(one_phase("Grebe Tarn")));
  CHECK(says(message, "out/spots.geojson: cannot be replaced: Is a directory; move or rename that folder"));
  CHECK(says(message, "the plan of Kestrel Mere, pre-spawn, early-summer is still in " + scratch.path("out")));
  CHECK(contents(scratch.path("out")) == before);
}

TEST_CASE("summary.json comes last: when its place is taken, the old outputs that had been removed come back") {
  const programs::Scratch scratch;
  write_folder(scratch.path("out"), files_of(sample::plan()));
  fs::remove(scratch.path("out/summary.json"));
  fs::create_directory(scratch.path("out/summary.json"));
  const auto before = contents(scratch.path("out"));
  REQUIRE(before.contains("waypoints-pre-spawn.gpx"));
  const std::string message = message_of(scratch.path("out"), files_of(one_phase()));
  CHECK(says(message, "summary.json: cannot be replaced"));
  CHECK(contents(scratch.path("out")) == before);
}

TEST_CASE("a folder made for a plan that fails is removed again") {
  const programs::Scratch scratch;
  // a name with a folder that does not exist cannot be opened
  auto files = files_of(one_phase());
  files.push_back({"missing/file.txt", "x"});
  const std::string message = message_of(scratch.path("a/b"), files);
  CHECK(says(message, "No such file or directory"));
  CHECK(says(message, scratch.path("a/b") + " was not made"));
  CHECK(contents(scratch.path()).empty());
}

TEST_CASE("an interrupted write leaves nothing, and the old plan whole") {
  const programs::Scratch scratch;
  write_folder(scratch.path("out"), files_of(one_phase("Kestrel Mere")));
  const auto old = contents(scratch.path("out"));
  auto files = files_of(one_phase("Grebe Tarn"));
  // enough work that an interruption can fall anywhere
  for (int number = 0; number < 300; ++number) {
    files.insert(files.begin(), {"waypoints-x" + std::to_string(number) + ".gpx", std::string(20000, 'x')});
  }
  abandon_write();  // nothing is under way
  int interrupted = 0;
  for (int round = 0; round < 40; ++round) {
    std::string message;
    std::thread writer([&] { message = message_of(scratch.path("out"), files); });
    std::this_thread::sleep_for(std::chrono::microseconds(400 * round));
    abandon_write();
    writer.join();
    CAPTURE(round, message);
    if (message == "no error") {  // it was done before
      CHECK(plan_in(scratch.path("out")) == "the plan of Grebe Tarn, 2026-05-02");
      fs::remove_all(scratch.path("out"));
      write_folder(scratch.path("out"), files_of(one_phase("Kestrel Mere")));
      continue;
    }
    ++interrupted;
    CHECK(says(message, "interrupted; the plan of Kestrel Mere, 2026-05-02 is still in"));
    CHECK(contents(scratch.path("out")) == old);
  }
  CHECK(interrupted > 0);
}

TEST_CASE("a summary that is not ours is no plan") {
  const programs::Scratch scratch;
  for (const char* bytes : {"", "{}", "[1, 2", "{\"lake\": {\"name\": \"x", "\"schema\": 1 \"lake\": {\"name\": 5}"}) {
    scratch.write("summary.json", bytes);
    CHECK(plan_in(scratch.path()).empty());
  }
}
