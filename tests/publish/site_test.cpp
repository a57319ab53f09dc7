// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <pugixml.hpp>
#include <regex>
#include <set>

#include "castplan/geo/error.hpp"
#include "publish/club.hpp"

using namespace castplan;
using namespace castplan::club;

namespace {

std::set<std::string> names_of(const Site& site) {
  std::set<std::string> out;
  for (const OutputFile& file : site.files) out.insert(file.name);
  return out;
}

/// Every address of a page, as it stands.
std::vector<std::string> links_in(const std::string& html) {
  static const std::regex link("(?:href|src)=\"([^\"]*)\"");
  std::vector<std::string> out;
  for (std::sregex_iterator at(html.begin(), html.end(), link), end; at != end; ++at) out.push_back((*at)[1]);
  return out;
}

std::string xmllint(const std::string& bytes) {
  const Scratch scratch;
  return programs::run("xmllint --noout --nonet " + scratch.write("text.xml", bytes)).text;
}

}  // namespace

TEST_CASE("a site has an index, a page and files a lake, a feed, and a sitemap where its address is known") {
  const Site site = site_of(large());
  CHECK(names_of(site) == std::set<std::string>{"feed.atom", "index.html", "lakes/kestrel-mere.html",
                                                "lakes/kestrel-mere/areas.csv", "lakes/kestrel-mere/areas.geojson",
                                                "lakes/kestrel-mere/contours.geojson",
                                                "lakes/kestrel-mere/features.geojson"});
  CHECK(site.files.back().name == "index.html");
  REQUIRE(site.notes.size() == 1);
  CHECK(has(site.notes[0], "sitemap.xml"));
  const Site placed = site_of(large(), {.base_url = "https://club.example/lakes/"});
  CHECK(placed.notes.empty());
  const std::string map = file_in(placed, "sitemap.xml");
  CHECK(xmllint(map).empty());
  CHECK(has(map, "<loc>https://club.example/lakes/lakes/kestrel-mere.html</loc><lastmod>2026-05-02</lastmod>"));
}

TEST_CASE("no link is broken, none leaves the site, and no page asks the network") {
  const Scratch scratch;
  Plan other = large();
  other.lake_name = "Heron Tarn";
  const Site site = make_site({folder_of(scratch, "a", large()), folder_of(scratch, "b", other)}, {});
  const std::set<std::string> names = names_of(site);
  std::size_t followed = 0;
  for (const OutputFile& file : site.files) {
    if (!file.name.ends_with(".html")) continue;
    INFO(file.name);
    CHECK(has(file.bytes,
              "content=\"default-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src 'unsafe-inline'\""));
    CHECK_FALSE(has(file.bytes, "http://"));
    CHECK_FALSE(has(file.bytes, "https://"));
    CHECK_FALSE(has(file.bytes, "url("));
    for (const std::string& link : links_in(file.bytes)) {
      INFO(link);
      ++followed;
      if (link.starts_with("#")) {
        CHECK(has(file.bytes, "id=\"" + link.substr(1) + "\""));
        continue;
      }
      const std::filesystem::path to = (std::filesystem::path(file.name).parent_path() / link).lexically_normal();
      CHECK(names.count(to.string()) == 1);
    }
  }
  CHECK(followed > 15);
}

// RFC 4287: 4.1.1 (a feed has one id, title and updated, and an author where an entry has none), 4.1.2 (an entry has
// one id, title, updated, and a link of alternate where it has no content), 4.2.6 (ids are absolute), 3.3 (dates of RFC
// 3339).
TEST_CASE("the feed is Atom") {
  const Scratch scratch;
  Plan other = large();
  other.lake_name = "Heron <Tarn> & \"Mere\"";
  const std::vector<std::string> folders{folder_of(scratch, "a", large()), folder_of(scratch, "b", other)};
  for (const std::string& base : {std::string(), std::string("https://club.example/x/")}) {
    const std::string bytes = file_in(make_site(folders, {.base_url = base}), "feed.atom");
    CHECK(xmllint(bytes).empty());
    pugi::xml_document document;
    REQUIRE(document.load_string(bytes.c_str()));
    const pugi::xml_node feed = document.child("feed");
    CHECK(std::string(feed.attribute("xmlns").value()) == "http://www.w3.org/2005/Atom");
    std::set<std::string> ids;
    const std::regex urn("urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}");
    const std::regex moment("[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}Z");
    const auto one_of_each = [&](const pugi::xml_node& node) {
      for (const char* name : {"id", "title", "updated"}) {
        const auto all = node.children(name);
        CHECK(std::distance(all.begin(), all.end()) == 1);
      }
      CHECK(std::regex_match(node.child_value("id"), urn));
      CHECK(std::regex_match(node.child_value("updated"), moment));
      CHECK(ids.insert(node.child_value("id")).second);
    };
    one_of_each(feed);
    CHECK(std::string(feed.child("author").child_value("name")) == "the club");
    int entries = 0;
    for (const pugi::xml_node entry : feed.children("entry")) {
      ++entries;
      one_of_each(entry);
      CHECK(std::string(entry.child("link").attribute("rel").value()) == "alternate");
      CHECK(std::string(entry.child("link").attribute("href").value()).starts_with(base + "lakes/"));
      CHECK(std::string(entry.child_value("updated")) == "2026-05-02T00:00:00Z");
      CHECK(std::string(entry.child_value("updated")) <= feed.child_value("updated"));
    }
    CHECK(entries == 2);
    CHECK(feed.find_child_by_attribute("link", "rel", "self").empty() == base.empty());
  }
}

TEST_CASE("dates come from the option, else the plan, else are fixed; a change is a new entry") {
  const auto entry = [](const Plan& plan, const PublishOptions& options, const char* what) {
    pugi::xml_document document;
    document.load_string(file_in(site_of(plan, options), "feed.atom").c_str());
    return std::string(document.child("feed").child("entry").child_value(what));
  };
  Plan plan = large();
  CHECK(entry(plan, {.document_date = "2026-07-01T12:00:00Z"}, "updated") == "2026-07-01T12:00:00Z");
  CHECK(entry(plan, {}, "updated") == "2026-05-02T00:00:00Z");
  CHECK(entry(large({}), {}, "updated") == "2000-01-01T00:00:00Z");
  const std::string before = entry(plan, {}, "id");
  CHECK(entry(plan, {}, "id") == before);
  plan.rules_text = "Other rules.";
  CHECK(entry(plan, {}, "id") != before);
}

TEST_CASE("whatever order the folders come in, the bytes are equal") {
  const Scratch scratch;
  Plan other = large();
  other.lake_name = "Heron Tarn";
  const std::string a = folder_of(scratch, "a", large()), b = folder_of(scratch, "b", other);
  const Site one = make_site({a, b}, {}), two = make_site({b, a}, {});
  REQUIRE(one.files.size() == two.files.size());
  for (std::size_t i = 0; i < one.files.size(); ++i) {
    CHECK(one.files[i].name == two.files[i].name);
    CHECK(one.files[i].bytes == two.files[i].bytes);
  }
}

TEST_CASE("any name makes pages that are well formed and addresses that are plain") {
  const std::vector<std::string> names{"<script>alert(1)</script>",
                                       "\"quoted\" 'single' & <b>",
                                       std::string("nul\0bell\a\x1b[31m", 12),
                                       "\xE2\x80\xAEgnp.exe \xD7\xA9\xD7\x9C",
                                       "../../etc/passwd",
                                       "\xE6\xB9\x96",
                                       std::string(10000, 'x'),
                                       "line\r\nbreak"};
  for (const std::string& name : names) {
    INFO(name.substr(0, 40));
    Plan plan = large({.lake_name = name, .feature_name = name, .one_phase = true});
    for (Feature& feature : plan.features) feature.name = name;
    plan.source = plan.licence = plan.rules_text = plan.rules_source = name;
    const Site site = site_of(plan);
    CHECK(xmllint(file_in(site, "feed.atom")).empty());
    for (const OutputFile& file : site.files) {
      INFO(file.name);
      CHECK(std::regex_match(file.name, std::regex("[a-z0-9.-]+(/[a-z0-9.-]+)*")));
      CHECK_FALSE(has(file.name, ".."));
      CHECK(file.name.size() < 100);
      CHECK_FALSE(has(file.bytes, "\xE2\x80\xAE"));
      CHECK_FALSE(has(file.bytes, std::string(1, '\0')));
      if (file.name.ends_with(".geojson")) CHECK(json::parse(file.bytes)["features"].is_array());
      if (!file.name.ends_with(".html")) continue;
      CHECK_FALSE(has(file.bytes, "<script>alert"));
      CHECK_FALSE(has(file.bytes, "<b>\""));
      CHECK(file.bytes.size() < 1'500'000);
    }
  }
}

TEST_CASE("a name with marks has an address that can be read") {
  const Site site = site_of(large({.lake_name = "\xC3\x89tang des H\xC3\xAAtres", .one_phase = true}));
  CHECK(names_of(site).count("lakes/etang-des-hetres.html") == 1);
  CHECK(
      names_of(site_of(large({.lake_name = "\xE6\xB9\x96", .one_phase = true}))).count("lakes/lake-45.5n-40.0w.html") ==
      1);
}

TEST_CASE("lakes across 180 degrees and near the poles have a map of their own size") {
  const std::vector<LonLat> centres{{Longitude{180.0}, Latitude{-17.0}},
                                    {Longitude{-179.9999}, Latitude{60.0}},
                                    {Longitude{20.0}, Latitude{89.9}},
                                    {Longitude{-60.0}, Latitude{-89.9}}};
  for (const LonLat centre : centres) {
    INFO(centre.lon.degrees << ", " << centre.lat.degrees);
    const Site site = site_of(large({.centre = centre, .one_phase = true}));
    const std::string page = file_in(site, "lakes/kestrel-mere.html");
    CHECK(has(page, "viewBox=\"0 0 1000 1000\""));
    // 660 m of margin and bowl on 1000 units: the scale bar is the largest round length of a fifth, 100 m = 151 units
    std::smatch bar;
    REQUIRE(std::regex_search(page, bar, std::regex("v10h([0-9.]+)v-10.*\n?[^>]*>100 m<")));
    CHECK(std::stod(bar[1]) == Approx(1000.0 * 100.0 / 660.0).epsilon(0.01));
    CHECK(has(file_in(site, "index.html"), "Kestrel Mere"));
    const json areas = json::parse(file_in(site, "lakes/kestrel-mere/areas.geojson"))["features"];
    int spots = 0;
    for (const json& area : areas) spots += area["properties"]["spots"].get<int>();
    CHECK(spots == 2);
  }
}

TEST_CASE("lakes of one name far apart have pages of their own; two plans of one lake are refused") {
  const Scratch scratch;
  const std::string a = folder_of(scratch, "a", large());
  const std::string b =
      folder_of(scratch, "b", large({.centre = {Longitude{-42.0}, Latitude{44.0}}, .one_phase = true}));
  const std::set<std::string> names = names_of(make_site({a, b}, {}));
  CHECK(names.count("lakes/kestrel-mere-45.5n-40.0w.html") == 1);
  CHECK(names.count("lakes/kestrel-mere-44.0n-42.0w.html") == 1);
  const std::string again = folder_of(scratch, "c", large());
  CHECK(has(thrown<InputError>([&] { make_site({a, again}, {}); }), "both hold a plan of Kestrel Mere"));
}

TEST_CASE("folders that are none of ours, or mixed, are refused with what to do") {
  const Scratch scratch;
  const auto said = [](const std::string& folder) { return thrown<InputError>([&] { make_site({folder}, {}); }); };
  CHECK(has(said(scratch.path("nowhere")), "is not a folder"));
  for (const char* name : {"summary.json", "features.geojson", "spots.geojson", "passes.geojson", "contours.geojson"}) {
    const std::string folder = folder_of(scratch, std::string("without-") + name, large());
    std::filesystem::remove(folder + "/" + name);
    CHECK(has(said(folder), std::string(name) + ": is missing"));
    scratch.write("without-" + std::string(name) + "/" + name, "{\"a\": ");
    CHECK(has(said(folder), "is no JSON text"));
    scratch.write("without-" + std::string(name) + "/" + name, "[1, 2]");
    CHECK(has(said(folder), "is not as castplan writes it"));
  }
  const std::string mixed = folder_of(scratch, "mixed", large());
  Plan other = large();
  other.date = "2026-06-01";
  scratch.write("mixed/spots.geojson", spots_geojson(other));
  CHECK(has(said(mixed), "spots.geojson: belongs to a plan of Kestrel Mere for 2026-06-01"));
}
