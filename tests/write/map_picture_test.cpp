// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <sstream>
#include <string>
#include <vector>

#include "castplan/write/text.hpp"
#include "support/lakes.hpp"
#include "support/plans.hpp"
#include "support/programs.hpp"

// What the map on the page draws, read back from the page and held to closed forms and published definitions.

using namespace castplan;

namespace {

std::string between(const std::string& page, const std::string& from, const std::string& to) {
  const std::size_t start = page.find(from);
  REQUIRE(start != std::string::npos);
  const std::size_t end = page.find(to, start + from.size());
  return page.substr(start + from.size(), end - start - from.size());
}

/// Vertices of "M12 40l3 -2 5 0zM..." in drawing units: a move, then steps from each to the next.
std::vector<XY> path_vertices(std::string path) {
  for (char& letter : path) {
    if (letter == 'l' || letter == 'z') letter = ' ';
  }
  std::vector<XY> out;
  std::istringstream parts(path);
  for (std::string part; std::getline(parts, part, 'M');) {
    std::istringstream numbers(part);
    XY at{};
    for (XY step; numbers >> step.x >> step.y;) out.push_back(at = at + step);
  }
  return out;
}

std::string decoded(const std::string& base64) {
  static const std::string kLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  std::uint32_t bits = 0;
  int held = 0;
  for (const char letter : base64) {
    if (letter == '=') break;
    bits = bits << 6U | static_cast<std::uint32_t>(kLetters.find(letter));
    held += 6;
    if (held < 8) continue;
    held -= 8;
    out += static_cast<char>(bits >> static_cast<unsigned>(held) & 0xFFU);
  }
  return out;
}

int big_endian(const std::string& bytes, std::size_t at) {
  int value = 0;
  for (std::size_t i = 0; i < 4; ++i) value = value * 256 + static_cast<unsigned char>(bytes[at + i]);
  return value;
}

/// WCAG 2.2, definition of relative luminance.
double luminance(const std::array<int, 3>& colour) {
  std::array<double, 3> linear{};
  for (std::size_t i = 0; i < 3; ++i) {
    const double share = colour[i] / 255.0;
    linear[i] = share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
  }
  return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
}
double contrast(double a, double b) { return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05); }

std::vector<std::array<int, 3>> ramp_of(const std::string& page) {
  const std::string stops = between(page, "linear-gradient(to right,", ")");
  std::vector<std::array<int, 3>> out;
  for (std::size_t at = stops.find('#'); at != std::string::npos; at = stops.find('#', at + 1)) {
    out.push_back({std::stoi(stops.substr(at + 1, 2), nullptr, 16), std::stoi(stops.substr(at + 3, 2), nullptr, 16),
                   std::stoi(stops.substr(at + 5, 2), nullptr, 16)});
  }
  return out;
}

/// Only a lake, no feature and no spot, so that the map shows the water and its margin.
Plan bare(const Lake& lake, Units units = Units::metric) {
  Plan plan = sample::plan({.units = units});
  plan.lake = &lake;
  plan.features.clear();
  plan.phases.clear();
  return plan;
}

}  // namespace

TEST_CASE("contours of a paraboloid are circles of the right radius") {
  // depth = 6 (1 - r^2 / 300^2): the line of depth d is the circle r = 300 sqrt(1 - d / 6)
  const Lake lake = lakes::lake_of(lakes::bowl_with_heights(Metres(300), Metres(6), Metres(5), Metres(40)));
  for (const Units units : {Units::metric, Units::imperial}) {
    const std::string page = map_html(bare(lake, units));
    const double step = units == Units::metric ? 1.0 : 2.0 * 0.3048;  // what the legend says, below
    CHECK(page.find(units == Units::metric ? "<span class=\"in-m\">every 1 m." : "<span class=\"in-ft\">every 2 ft.") !=
          std::string::npos);
    const std::string box = between(page, "<svg class=\"picture\" viewBox=\"0 0 ", "\"");
    const double width = std::stod(box);
    const double height = std::stod(box.substr(box.find(' ')));
    std::string contours =
        between(page, units == Units::metric ? "<g id=\"contours-m\">" : "<g id=\"contours-ft\">", "</g>");
    int level = 0;
    for (std::size_t at = contours.find("d=\""); at != std::string::npos; at = contours.find("d=\"", at + 1)) {
      ++level;
      const double radius = 300.0 * std::sqrt(1.0 - level * step / 6.0);
      for (const XY vertex : path_vertices(contours.substr(at + 3, contours.find('"', at + 3) - at - 3))) {
        const double r = 0.1 * std::hypot(vertex.x - width / 2, vertex.y - height / 2);  // drawing units of 0.1 m
        INFO("level " << level);
        // half a pixel of the picture by simplifying (0.24 m), 0.07 m by rounding, 0.1 m by straight cell edges
        REQUIRE(r == Approx(radius).margin(0.7));
      }
    }
    CHECK(level == (units == Units::metric ? 5 : 9));  // below 6 m; below 19.7 ft
  }
}

TEST_CASE("depth colours: lightness falls with depth, and marks stand out on all of them") {
  const auto ramp = ramp_of(map_html(sample::plan()));
  REQUIRE(ramp.size() == 13);
  const double white = luminance({255, 255, 255});
  const double ink = luminance({0x1d, 0x1c, 0x1a});
  for (std::size_t i = 0; i < ramp.size(); ++i) {
    INFO("stop " << i);
    if (i > 0) CHECK(luminance(ramp[i]) < luminance(ramp[i - 1]));
    // WCAG 2.2, 1.4.11: a mark of dark ink in a white halo has 3:1 with one of the two on any depth
    CHECK(std::max(contrast(luminance(ramp[i]), white), contrast(luminance(ramp[i]), ink)) >= 3.0);
    CHECK(ramp[i][0] < ramp[i][1]);  // one hue: green and blue lead everywhere
    CHECK(ramp[i][0] < ramp[i][2]);
  }
}

TEST_CASE("the depth picture is a PNG of the view's shape, at most 1400 pixels a side") {
  const std::string page = map_html(sample::plan());
  const std::string png = decoded(between(page, "data:image/png;base64,", "\""));
  CHECK(png.substr(0, 8) == "\x89PNG\r\n\x1a\n");  // PNG (ISO/IEC 15948), 5.2 and 11.2.2
  CHECK(png.substr(12, 4) == "IHDR");
  const std::string box = between(page, "<svg class=\"picture\" viewBox=\"0 0 ", "\"");
  const double ratio = std::stod(box) / std::stod(box.substr(box.find(' ')));
  CHECK(std::max(big_endian(png, 16), big_endian(png, 20)) <= 1400);
  CHECK(static_cast<double>(big_endian(png, 16)) / big_endian(png, 20) == Approx(ratio).epsilon(0.002));
}

TEST_CASE("the arrow points to true north where the grid does not") {
  // 45.5 N 40 W lies 1 degree west of the middle of zone 24: grid north leaves true north by
  // atan(tan(-1) sin(45.5)) = -0.713 degrees (Snyder 1987, USGS Professional Paper 1395, p. 51: on the sphere; the
  // ellipsoid changes it by less than 0.001). West of the middle true north lies right of the grid's.
  const Projection utm = Projection::from_text("EPSG:32624");
  const XY centre = utm.from_lonlat({Longitude{-40.0}, Latitude{45.5}});
  Grid<Metres32> values = lakes::bowl(Metres(200), Metres(4), Metres(10), Metres(40));
  Frame frame = values.frame();
  frame.corner = frame.corner + XY{std::round(centre.x / 10) * 10, std::round(centre.y / 10) * 10};
  Grid<Metres32> moved(frame);
  std::copy(values.cells().begin(), values.cells().end(), moved.cells().begin());
  const Lake lake = make_lake(utm, std::move(moved));
  const std::string page = map_html(bare(lake));
  CHECK(page.find("aria-label=\"True north is 0.7 degrees right of the top of the map\"") != std::string::npos);
  CHECK(std::stod(between(page, "style=\"transform:rotate(", "deg)")) == Approx(0.713).margin(0.01));
}

TEST_CASE("scale bars are as long as they say") {
  const std::string page = map_html(sample::plan());
  const double width = std::stod(between(page, "\"width_m\": ", ",").c_str());
  for (const std::string unit : {"m", "ft"}) {
    const std::string bar = between(page, "<div class=\"scale\" style=\"width:", "</div>");
    const std::string mine =
        unit == "m" ? bar : between(page, bar + "</div>\n<div class=\"scale\" style=\"width:", "</div>");
    const double metres = std::stod(mine.substr(mine.find('>') + 1)) * (unit == "m" ? 1.0 : 0.3048);
    CHECK(std::stod(mine) / 100.0 * width == Approx(metres).epsilon(0.001));
  }
}

TEST_CASE("what is not surveyed is not land, in the picture as read by GDAL") {
  // a bowl of 300 m with nothing known east of x = 150; the view spans the water's cells and a margin about them
  Grid<Metres32> values = lakes::bowl_with_heights(Metres(300), Metres(6), Metres(10), Metres(40));
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values.frame().centre(values.cell_of(i)).x > 150.0) values[i] = lakes::kUnknown;
  }
  const Lake lake = lakes::lake_of(std::move(values));
  const std::string page = map_html(bare(lake));
  const programs::Scratch scratch;
  const std::string file = scratch.write("depth.png", decoded(between(page, "data:image/png;base64,", "\"")));
  const std::string png = programs::read(file);
  const auto pixel = [&](double east, double south) {  // shares of width and height
    const auto result = programs::run("gdallocationinfo -valonly " + file + " " +
                                      std::to_string(static_cast<int>(east * big_endian(png, 16))) + " " +
                                      std::to_string(static_cast<int>(south * big_endian(png, 20))));
    REQUIRE(result.code == 0);
    std::istringstream numbers(result.text);
    std::array<int, 4> bands{};
    for (int& band : bands) numbers >> band;
    return bands;
  };
  CHECK(pixel(0.99, 0.5)[3] == 0);      // east of the cut: clear, the page's hatching shows through
  const auto land = pixel(0.02, 0.06);  // the north-west corner, beyond the shore
  CHECK(land[3] == 255);
  CHECK(land[0] > land[2]);  // a warm neutral colour, where water is green and blue
  const auto water = pixel(0.6, 0.5);
  CHECK(water[3] == 255);
  CHECK(water[0] < water[2]);
  CHECK(page.find("<b>Unknown:</b>") != std::string::npos);
}
