// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <sys/stat.h>

#include <set>

#include "castplan/geo/error.hpp"
#include "publish/club.hpp"

using namespace castplan;
using namespace castplan::club;

namespace {

/// Names, bytes and the number of the file in the file system: a file that is written anew has another.
std::map<std::string, std::pair<std::string, ino_t>> tree(const std::string& folder) {
  std::map<std::string, std::pair<std::string, ino_t>> out;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file()) continue;
    struct stat found {};
    REQUIRE(::lstat(entry.path().c_str(), &found) == 0);
    out[std::filesystem::relative(entry.path(), folder).string()] = {programs::read(entry.path().string()),
                                                                     found.st_ino};
  }
  return out;
}

Plan named(const std::string& name) { return large({.lake_name = name, .one_phase = true}); }

}  // namespace

TEST_CASE("publishing again writes nothing anew, and only what changed") {
  const Scratch scratch;
  const std::string out = scratch.path("deep/er/site");
  const std::string a = folder_of(scratch, "a", named("Kestrel Mere")),
                    b = folder_of(scratch, "b", named("Heron Tarn"));
  const SiteChange first = write_site(out, make_site({a, b}, {}));
  CHECK(first.written.size() == 12);
  CHECK(first.unchanged == 0);
  const auto before = tree(out);
  const SiteChange same = write_site(out, make_site({b, a}, {}));
  CHECK(same.written.empty());
  CHECK(same.unchanged == 12);
  CHECK(tree(out) == before);

  Plan plan = named("Heron Tarn");
  plan.rules_text = "Other rules.";
  folder_of(scratch, "b", plan);
  write_site(out, make_site({a, b}, {}));
  const auto after = tree(out);
  for (const auto& [name, file] : after) {
    INFO(name);
    // a spreadsheet carries no rules
    const bool of_heron =
        (has(name, "heron-tarn") && !name.ends_with(".csv")) || name == "feed.atom" || name == "castplan-site.txt";
    CHECK((file == before.at(name)) == !of_heron);
  }
}

TEST_CASE("a lake that is no longer given goes, what is not ours stays") {
  const Scratch scratch;
  const std::string out = scratch.path("site");
  const std::string a = folder_of(scratch, "a", named("Kestrel Mere")),
                    b = folder_of(scratch, "b", named("Heron Tarn"));
  write_site(out, make_site({a, b}, {}));
  scratch.write("site/lakes/mine.html", "my own");
  scratch.write("site/lakes/heron-tarn/notes.txt", "my own too");
  scratch.write("site/lakes/heron-tarn/areas.csv", "changed by hand");
  const SiteChange change = write_site(out, make_site({a}, {}));
  CHECK(change.removed.size() == 4);
  CHECK(change.kept == std::vector<std::string>{"lakes/heron-tarn/areas.csv"});
  const auto files = tree(out);
  CHECK(files.count("lakes/heron-tarn.html") == 0);
  CHECK(files.count("lakes/mine.html") == 1);
  CHECK(files.count("lakes/heron-tarn/notes.txt") == 1);
  CHECK(files.at("lakes/heron-tarn/areas.csv").first == "changed by hand");
}

TEST_CASE("folders of a lake that goes go with it") {
  const Scratch scratch;
  const std::string out = scratch.path("site");
  const std::string a = folder_of(scratch, "a", named("Kestrel Mere")),
                    b = folder_of(scratch, "b", named("Heron Tarn"));
  write_site(out, make_site({a, b}, {}));
  write_site(out, make_site({a}, {}));
  CHECK_FALSE(std::filesystem::exists(out + "/lakes/heron-tarn"));
}

TEST_CASE("a file of somebody else in the way is refused, and nothing is written") {
  const Scratch scratch;
  const std::string out = scratch.path("site");
  const std::string a = folder_of(scratch, "a", named("Kestrel Mere"));
  for (const std::string& name : {std::string("index.html"), std::string("castplan-site.txt")}) {
    std::filesystem::create_directories(out);
    scratch.write("site/" + name, "my own");
    const auto before = tree(out);
    CHECK(
        has(thrown<OutputError>([&] { write_site(out, make_site({a}, {})); }), "was not written by castplan publish"));
    CHECK(tree(out) == before);
    std::filesystem::remove_all(out);
  }
}

TEST_CASE("a list that was tampered with leads nowhere outside the folder") {
  const Scratch scratch;
  const std::string out = scratch.path("site");
  const std::string a = folder_of(scratch, "a", named("Kestrel Mere"));
  write_site(out, make_site({a}, {}));
  scratch.write("precious", "");
  const std::string list = programs::read(out + "/castplan-site.txt");
  // SHA-256 of no bytes: FIPS 180-4, as sha256sum prints it
  scratch.write("site/castplan-site.txt",
                list + "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855  ../precious\n");
  write_site(out, make_site({a}, {}));
  CHECK(std::filesystem::exists(scratch.path("precious")));
}

TEST_CASE("what cannot be put in place leaves all as it was") {
  const Scratch scratch;
  const std::string out = scratch.path("site");
  const std::string a = folder_of(scratch, "a", named("Kestrel Mere"));
  write_site(out, make_site({a}, {}));
  std::filesystem::remove(out + "/feed.atom");
  std::filesystem::create_directory(out + "/feed.atom");
  const auto before = tree(out);
  Plan plan = named("Kestrel Mere");
  plan.rules_text = "Other rules.";
  folder_of(scratch, "a", plan);
  const std::string said = thrown<OutputError>([&] { write_site(out, make_site({a}, {})); });
  CHECK(has(said, "feed.atom"));
  CHECK(has(said, "is as it was"));
  CHECK_FALSE(has(said, "--out"));
  CHECK(tree(out) == before);
}

TEST_CASE("from exact to coarse nothing exact stays, or nothing is written") {
  const Scratch scratch;
  const std::string out = scratch.path("site");
  const std::string a = folder_of(scratch, "a", named("Kestrel Mere"));
  write_site(out, make_site({a}, {.exact = true}));
  CHECK(std::filesystem::exists(out + "/lakes/kestrel-mere/spots.geojson"));
  scratch.write("site/lakes/kestrel-mere/spots.csv", "changed by hand");
  const auto before = tree(out);
  CHECK(has(thrown<OutputError>([&] { write_site(out, make_site({a}, {})); }),
            "spots.csv: was left by a site with exact"));
  CHECK(tree(out) == before);
  std::filesystem::remove(out + "/lakes/kestrel-mere/spots.csv");
  write_site(out, make_site({a}, {}));
  for (const auto& [name, file] : tree(out)) {
    INFO(name);
    CHECK_FALSE(has(file.first, "EXACT PLACES"));
    CHECK_FALSE(has(name, "spots"));
  }
}
