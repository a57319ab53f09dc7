// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <pugixml.hpp>
#include <regex>
#include <sstream>

#include "castplan/write/text.hpp"
#include "support/plans.hpp"
#include "support/programs.hpp"
#include "write/gpx_rules.hpp"

// KML 2.2, OGC 07-147r2. The schema itself is held against the file in tests/real/format_samples_test.cpp.

using namespace castplan;

namespace {

pugi::xml_document read(const std::string& text) {
  pugi::xml_document document;
  REQUIRE(document.load_string(text.c_str()));
  return document;
}

std::vector<pugi::xml_node> all(const pugi::xml_node& root, const char* name) {
  std::vector<pugi::xml_node> out;
  const std::function<void(const pugi::xml_node&)> look = [&](const pugi::xml_node& node) {
    if (std::string(node.name()) == name) out.push_back(node);
    for (const pugi::xml_node child : node.children()) look(child);
  };
  look(root);
  return out;
}

struct Tuple {
  double lon, lat;
};

// Tuples parted by spaces, two numbers each with a comma between: no height, no space inside (kml:coordinates).
std::vector<Tuple> tuples(const std::string& text) {
  std::vector<Tuple> out;
  std::istringstream words(text);
  std::string word;
  const std::regex form(R"((-?\d{1,3}\.\d{6}),(-?\d{1,2}\.\d{6}))");
  while (words >> word) {
    std::smatch parts;
    CAPTURE(word);
    REQUIRE(std::regex_match(word, parts, form));
    out.push_back({std::stod(parts[1]), std::stod(parts[2])});
  }
  return out;
}

double doubled_area(const std::vector<Tuple>& ring) {
  double sum = 0.0;
  for (std::size_t at = 1; at < ring.size(); ++at) {
    sum += (ring[at - 1].lon - ring[0].lon) * (ring[at].lat - ring[0].lat) -
           (ring[at].lon - ring[0].lon) * (ring[at - 1].lat - ring[0].lat);
  }
  return sum;
}

// The order of children in the schema's AbstractFeatureType, DocumentType, FolderType and PlacemarkType, as far as this
// program writes them.
void hold_to_kml(const std::string& text) {
  const pugi::xml_document document = read(text);
  const pugi::xml_node kml = document.document_element();
  CHECK(std::string(kml.attribute("xmlns").value()) == "http://www.opengis.net/kml/2.2");
  hold_to_order(kml, {"Document"});
  for (const pugi::xml_node node : all(kml, "Document")) {
    std::vector<std::string> names;
    for (const pugi::xml_node child : node.children()) {
      if (names.empty() || names.back() != child.name()) names.emplace_back(child.name());
    }
    CHECK(names == std::vector<std::string>{"name", "open", "description", "Style", "Schema", "Folder"});
  }
  for (const pugi::xml_node node : all(kml, "Placemark")) {
    hold_to_order(node, {"name", "visibility", "open", "description", "styleUrl", "ExtendedData", "Point", "LineString",
                         "Polygon", "MultiGeometry"});
  }
  for (const pugi::xml_node node : all(kml, "Polygon")) {
    hold_to_order(node, {"tessellate", "outerBoundaryIs", "innerBoundaryIs"}, {"innerBoundaryIs"});
  }
  for (const char* absent : {"altitudeMode", "extrude", "href", "Icon", "NetworkLink", "script"}) {
    CHECK(all(kml, absent).empty());
  }
  for (const pugi::xml_node node : all(kml, "coordinates")) {
    for (const Tuple& place : tuples(node.child_value())) {
      CHECK(std::abs(place.lon) <= 180.0);
      CHECK(std::abs(place.lat) <= 90.0);
    }
  }
  for (const pugi::xml_node node : all(kml, "LinearRing")) {
    const std::vector<Tuple> ring = tuples(node.child_value("coordinates"));
    REQUIRE(ring.size() >= 4);
    CHECK(ring.front().lon == ring.back().lon);
    CHECK(ring.front().lat == ring.back().lat);
    CHECK((doubled_area(ring) > 0.0) == (std::string(node.parent().name()) == "outerBoundaryIs"));
  }
}

std::string kml_at(double lon, double lat) {
  sample::Options options;
  options.centre = {Longitude{lon}, Latitude{lat}};
  return places_kml(sample::plan(options));
}

int features_by_ogrinfo(const std::string& bytes) {
  const programs::Scratch scratch;
  const auto found = programs::run("ogrinfo -ro -al -so " + scratch.write("places.kml", bytes));
  CHECK(found.code == 0);
  int count = 0;
  const std::regex line("Feature Count: (\\d+)");
  for (std::sregex_iterator at(found.text.begin(), found.text.end(), line), end; at != end; ++at) {
    count += std::stoi((*at)[1]);
  }
  return count;
}

const int kFeatures = static_cast<int>(kinds().size());

}  // namespace

TEST_CASE("KML holds to the order of the schema, to rings and coordinates, wherever the lake lies") {
  hold_to_kml(places_kml(sample::plan()));
  hold_to_kml(kml_at(180.0, -17.0));
  hold_to_kml(kml_at(-180.0, -17.0));
  hold_to_kml(kml_at(20.0, 84.0));
  hold_to_kml(kml_at(20.0, -84.0));
}

TEST_CASE("OGR opens the KML with every feature, spot and pass, and the types of their data") {
  const programs::Scratch scratch;
  const std::string bytes = places_kml(sample::plan());
  CHECK(features_by_ogrinfo(bytes) == kFeatures + 3 + 1);
  CHECK(features_by_ogrinfo(kml_at(180.0, -17.0)) == kFeatures + 3 + 1);
  CHECK(features_by_ogrinfo(kml_at(20.0, 84.0)) == kFeatures + 3 + 1);
  const std::string file = scratch.write("places.kml", bytes);
  const auto pools = programs::run("ogrinfo -ro -q " + file + " Pools");
  CHECK(pools.text.find("max_depth_m (Real) = 6\n") != std::string::npos);
  CHECK(pools.text.find("sill_depth_m (Real)") == std::string::npos);  // not known, so not there
  CHECK(pools.text.find("area_m2 (Real) = 43982.3\n") != std::string::npos);
  const auto spots = programs::run("ogrinfo -ro -q " + file + " Spots");
  CHECK(spots.text.find("rank (Integer) = 1\n") != std::string::npos);
  CHECK(spots.text.find("hold (String) = motor\n") != std::string::npos);
}

TEST_CASE("every mark has a shared style and a schema that are there, and colours are alpha, blue, green, red") {
  const pugi::xml_document document = read(places_kml(sample::plan()));
  std::map<std::string, pugi::xml_node> by_id;
  for (const char* name : {"Style", "Schema"}) {
    for (const pugi::xml_node node : all(document, name)) {
      CHECK(by_id.emplace("#" + std::string(node.attribute("id").value()), node).second);
    }
  }
  for (const pugi::xml_node placemark : all(document, "Placemark")) {
    CHECK(by_id.count(placemark.child_value("styleUrl")) == 1);
    const pugi::xml_node data = placemark.child("ExtendedData").child("SchemaData");
    REQUIRE(by_id.count(data.attribute("schemaUrl").value()) == 1);
    const pugi::xml_node schema = by_id[data.attribute("schemaUrl").value()];
    for (const pugi::xml_node value : data.children("SimpleData")) {
      CAPTURE(value.attribute("name").value());
      CHECK(schema.find_child_by_attribute("SimpleField", "name", value.attribute("name").value()));
    }
  }
  for (const pugi::xml_node colour : all(document, "color")) {
    CHECK(std::regex_match(colour.child_value(), std::regex("[0-9a-f]{8}")));
  }
  // the line of a hazard is a light red, #f0918a: least blue, most red; opaque comes first
  const std::string hazard = by_id["#style-hazard"].child("LineStyle").child_value("color");
  CHECK(hazard == "ff8a91f0");
  CHECK(std::string(by_id["#style-hazard"].child("PolyStyle").child_value("color")).substr(0, 2) == "40");
}

TEST_CASE("one folder a kind, spots and passes in folders of their phase, named as in the GPX files") {
  const pugi::xml_document document = read(places_kml(sample::plan()));
  const pugi::xml_node top = document.child("kml").child("Document");
  std::vector<std::string> names;
  for (const pugi::xml_node folder : top.children("Folder")) names.emplace_back(folder.child_value("name"));
  REQUIRE(names.size() == kinds().size() + 2);
  CHECK(names[0] == "Pre-spawn");
  CHECK(names[1] == "Early summer");
  CHECK(names[2] == "Pools");
  std::vector<std::string> marks;
  for (const pugi::xml_node mark : all(top.child("Folder"), "Placemark")) marks.emplace_back(mark.child_value("name"));
  CHECK(marks == std::vector<std::string>{"01DPRS-2M", "02WPRS-2M", "P01PRS"});
  for (const pugi::xml_node mark : all(top.child("Folder"), "Placemark")) {
    CHECK(std::string(mark.child_value("description")).find("may cross land or shoals") != std::string::npos);
  }
}

TEST_CASE("a launch in KML says at which temperature to stop") {
  const std::string text = places_kml(sample::plan());
  CHECK(text.find("do not fish for Mere pike") != std::string::npos);
  sample::Options options;
  options.units = Units::imperial;
  CHECK(places_kml(sample::plan(options)).find("at 75 F or above") != std::string::npos);
}

TEST_CASE("the document says what every file carries") {
  const pugi::xml_document document = read(places_kml(sample::plan()));
  const std::string said = document.child("kml").child("Document").child_value("description");
  for (const char* part :
       {"PRIVATE: EXACT PLACES", "Not for navigation", "life jacket", "Invented county survey", "CC BY 4.0", "312.4 m",
        "pre-spawn: rising 4 to 8 C (39 to 46 F)", "Single barbless hooks"}) {
    CAPTURE(part);
    CHECK(said.find(part) != std::string::npos);
  }
}

TEST_CASE("no name can put markup, controls or other reading directions into KML") {
  const programs::Scratch scratch;
  for (const std::string& name :
       {std::string("<script>alert(1)</script>"), std::string("]]> & \"q\" <!-- --> <img src=x>"),
        std::string("bell\a\x1b[31m\x7f"), std::string("\xE2\x80\xAEgnp.exe \xD7\xA9\xD7\x9C"), std::string(10000, 'x'),
        std::string("\xEF\xBF\xBE\xEF\xBF\xBF"), std::string()}) {
    sample::Options options;
    options.lake_name = options.feature_name = name;
    Plan plan = sample::plan(options);
    for (Feature& feature : plan.features) feature.name = name;
    plan.phases[0].spots[0].reason_words = name;
    plan.source = plan.rules_text = name;
    const std::string text = places_kml(plan);
    const auto lint = programs::run("xmllint --noout " + scratch.write("names.kml", text));
    CHECK(lint.code == 0);
    CHECK(lint.text.empty());
    hold_to_kml(text);
    CHECK(std::none_of(text.begin(), text.end(), [](char letter) {
      return (static_cast<unsigned char>(letter) < 0x20 && letter != '\n') || letter == 0x7f;
    }));
    CHECK(text.find("\xE2\x80\xAE") == std::string::npos);
    const pugi::xml_document document = read(text);
    for (const pugi::xml_node mark : all(document, "Placemark")) {
      CHECK(std::string(mark.child_value("name")).size() <= 120);
      CHECK(std::string(mark.child_value("name")).size() > 0);
      // what a viewer takes for HTML has no tag in it
      CHECK(std::string(mark.child_value("description")).find('<') == std::string::npos);
    }
    CHECK(std::string(document.child("kml").child("Document").child_value("description")).find('<') ==
          std::string::npos);
  }
}

TEST_CASE("KML at a stop has features, the reason, and neither spot nor pass") {
  sample::Options options;
  options.one_phase = options.stop = true;
  Plan plan = sample::plan(options);
  plan.phases = sample::plan().phases;  // even when someone left spots in the plan
  const std::string text = places_kml(plan);
  CHECK(text.find("at or above the stop of 75 F") != std::string::npos);
  for (const char* absent : {"spot-45.", "pass-45.", "style-spot", "schema-pass", ">Spots<"}) {
    CHECK(text.find(absent) == std::string::npos);
  }
  CHECK(features_by_ogrinfo(text) == kFeatures);
}

TEST_CASE("equal plans, equal KML bytes") { CHECK(places_kml(sample::plan()) == places_kml(sample::plan())); }
