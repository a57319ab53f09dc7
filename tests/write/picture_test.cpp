// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <map>
#include <regex>

#include "castplan/write/text.hpp"
#include "support/pdf.hpp"
#include "support/plans.hpp"
#include "support/programs.hpp"

using namespace castplan;

namespace {

// The picture as GDAL reads it: PNG to the plain form that poppler writes too (netpbm, P6).
pdf::Picture pixels_of(const std::string& png) {
  const programs::Scratch scratch;
  const std::string file = scratch.write("map.png", png);
  REQUIRE(programs::run("gdal_translate -q -of PNM " + file + " " + scratch.path("map.ppm")).code == 0);
  const std::string bytes = programs::read(scratch.path("map.ppm"));
  std::smatch match;
  REQUIRE(std::regex_search(bytes, match, std::regex("^P6\\s+(\\d+)\\s+(\\d+)\\s+255\\s")));
  return {std::stoi(match[1]), std::stoi(match[2]), 3, bytes.substr(match[0].length())};
}

using Rgb = std::array<int, 3>;

std::map<Rgb, int> colours_of(const std::string& png) {
  const pdf::Picture picture = pixels_of(png);
  std::map<Rgb, int> out;
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < picture.width; ++x) ++out[{picture.at(x, y, 0), picture.at(x, y, 1), picture.at(x, y, 2)}];
  }
  return out;
}

// Colours of water that fill an area: green or blue over red by more than anything else of the picture has, and more of
// them than the edges of lines make.
std::vector<std::pair<Rgb, int>> bands_of(const std::map<Rgb, int>& colours) {
  std::vector<std::pair<Rgb, int>> out;
  for (const auto& [colour, count] : colours) {
    if (count > 20000 && colour[2] > colour[0] + 15) out.emplace_back(colour, count);
  }
  return out;
}

Plan plan_in(Units units) {
  sample::Options options;
  options.units = units;
  options.one_phase = true;
  return sample::plan(options);
}

// Text chunks of a PNG (ISO/IEC 15948, section 11.3.4.5): keyword, five zero bytes, UTF-8.
std::string chunk_text(const std::string& png, const std::string& keyword) {
  const std::string mark = "iTXt" + keyword + std::string(5, '\0');
  const std::size_t at = png.find(mark);
  if (at == std::string::npos) return {};
  std::size_t length = 0;
  for (std::size_t i = 4; i > 0; --i) length = length << 8U | static_cast<unsigned char>(png[at - i]);
  return png.substr(at + mark.size(), length - (mark.size() - 4));
}

// The dark purple of a closure's lines, #4d144f, rounded either way.
bool has_closure(const std::map<Rgb, int>& colours) {
  return std::any_of(colours.begin(), colours.end(), [](const auto& row) {
    const Rgb& colour = row.first;
    return std::abs(colour[0] - 77) <= 1 && std::abs(colour[1] - 20) <= 1 && std::abs(colour[2] - 79) <= 1;
  });
}

}  // namespace

// In a bowl with depth 6 (1 - r2 / R2) the area at or below a depth falls evenly: each metre has a sixth of it.
TEST_CASE("the picture's bands of depth have the areas of the bowl, in metres and in feet") {
  const auto metric = bands_of(colours_of(map_png(plan_in(Units::metric))));
  REQUIRE(metric.size() == 6);
  double sum = 0.0;
  for (const auto& [colour, count] : metric) sum += count;
  // lines, labels, numbers and hatching stand on the water and take up to a quarter of a band
  for (const auto& [colour, count] : metric) CHECK(count / sum == Approx(1.0 / 6.0).epsilon(0.25));
  // 6 m are 19.7 ft: by steps of 2 ft ten bands, the last of 1.7 ft
  CHECK(bands_of(colours_of(map_png(plan_in(Units::imperial)))).size() == 10);
}

TEST_CASE("darker is deeper, and only water has the ramp's colours") {
  auto bands = bands_of(colours_of(map_png(plan_in(Units::metric))));
  const pdf::Picture picture = pixels_of(map_png(plan_in(Units::metric)));
  // down the middle of the map the shades of the water darken to the middle and lighten again
  std::vector<int> reds;
  for (int y = 0; y < picture.height; ++y) {
    const Rgb here{picture.at(1010, y, 0), picture.at(1010, y, 1), picture.at(1010, y, 2)};
    const bool known = std::any_of(bands.begin(), bands.end(), [&](const auto& band) { return band.first == here; });
    if (known && (reds.empty() || reds.back() != here[0])) reds.push_back(here[0]);
  }
  REQUIRE(reds.size() >= 11);
  CHECK(std::is_sorted(reds.rbegin() + static_cast<std::ptrdiff_t>(reds.size()) - 6, reds.rend()));
}

TEST_CASE("a closure is hatched while it holds") {
  Plan plan = plan_in(Units::metric);
  CHECK(has_closure(colours_of(map_png(plan))));
  for (Feature& feature : plan.features) {
    if (auto* closure = std::get_if<Closure>(&feature.details)) closure->active = false;
  }
  CHECK_FALSE(has_closure(colours_of(map_png(plan))));
}

TEST_CASE("the PNG is 2000 dots wide, GDAL reads it, and its text says what every file carries") {
  const programs::Scratch scratch;
  const std::string png = map_png(plan_in(Units::metric));
  CHECK(png.substr(0, 8) == "\x89PNG\r\n\x1a\n");
  const auto info = programs::run("gdalinfo " + scratch.write("map.png", png));
  CHECK(info.text.find("Size is 2000, ") != std::string::npos);
  CHECK(info.text.find("ERROR") == std::string::npos);
  CHECK(chunk_text(png, "Title") == "Depth map of Kestrel Mere. PRIVATE: EXACT PLACES");
  const std::string said = chunk_text(png, "Description");
  for (const char* part : {"2 numbered spots", "Not for navigation", "life jacket", "312.4 m", "CC BY 4.0",
                           "4 to 8 C (39 to 46 F)", "castplan "}) {
    CAPTURE(part);
    CHECK(said.find(part) != std::string::npos);
  }
  CHECK(png.find("tIME") == std::string::npos);
}

TEST_CASE("the SVG is the same drawing with a title and a text, and asks for nothing outside") {
  const programs::Scratch scratch;
  const std::string svg = map_svg(plan_in(Units::metric));
  const auto lint = programs::run("xmllint --noout " + scratch.write("map.svg", svg));
  CHECK(lint.code == 0);
  CHECK(lint.text.empty());
  CHECK(svg.find("<title>Depth map of Kestrel Mere. PRIVATE: EXACT PLACES</title>") != std::string::npos);
  CHECK(svg.find("role=\"img\"") != std::string::npos);
  const std::regex reference("(href|src)=\"([^\"]*)\"");
  for (std::sregex_iterator at(svg.begin(), svg.end(), reference), end; at != end; ++at) {
    CHECK((*at)[2].str().substr(0, 1) == "#");
  }
  for (const char* absent : {"<script", "<image", "<style", "font-family", "<text"}) {
    CAPTURE(absent);
    CHECK(svg.find(absent) == std::string::npos);
  }
}

TEST_CASE("at a stop both pictures are those of a plan without spots, and say why") {
  sample::Options options;
  options.one_phase = options.stop = true;
  const Plan none = sample::plan(options);
  Plan left = sample::plan(options);
  left.phases = sample::plan().phases;  // even when someone left spots in the plan
  Plan one = none;
  one.phases.push_back({left.phases[1].phase, {}, ""});
  CHECK((map_png(left) == map_png(one)));  // in brackets: a failure need not print pictures
  CHECK((map_svg(left) == map_svg(one)));
  CHECK(map_svg(none).find("0 numbered spots") != std::string::npos);
  CHECK(map_svg(none).find("at or above the stop of 75 F") != std::string::npos);
  CHECK((map_png(none) != map_png(plan_in(Units::metric))));
}

TEST_CASE("names of any kind leave the pictures whole") {
  const programs::Scratch scratch;
  for (const std::string& name : {std::string("<script>\"x\"</script>"), std::string(10000, 'x'),
                                  std::string("\xE2\x80\xAEgnp \xD7\xA9\a"), std::string("\xEF\xBF\xBE")}) {
    sample::Options options;
    options.lake_name = options.feature_name = name;
    Plan plan = sample::plan(options);
    for (Feature& feature : plan.features) feature.name = name;
    const auto lint = programs::run("xmllint --noout " + scratch.write("map.svg", map_svg(plan)));
    CHECK(lint.code == 0);
    CHECK(lint.text.empty());
    CHECK(programs::run("gdalinfo " + scratch.write("map.png", map_png(plan))).code == 0);
  }
}

TEST_CASE("equal plans, equal pictures, whatever was drawn before") {
  const std::string png = map_png(sample::plan()), svg = map_svg(sample::plan());
  sample::Options options;
  options.centre = {Longitude{180.0}, Latitude{-80.0}};
  map_svg(sample::plan(options));
  map_png(sample::plan(options));
  CHECK((map_png(sample::plan()) == png));
  CHECK((map_svg(sample::plan()) == svg));
}
