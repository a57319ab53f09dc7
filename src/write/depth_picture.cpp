// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/depth_picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "castplan/grid/sweep.hpp"
#include "castplan/io/picture.hpp"

namespace castplan {
namespace {

constexpr std::array<std::uint8_t, 4> kLand = {232, 226, 212, 255};
constexpr int kShades = 48;                     // steps of the picture: fewer compress better, more are not seen
constexpr std::size_t kMostBytes = 700 * 1024;  // half of it again as base64, and the page stays near one megabyte
constexpr double kRadians = 3.14159265358979323846 / 180.0;

std::uint8_t srgb_byte(double linear) {
  const double in = std::clamp(linear, 0.0, 1.0);
  const double out = in <= 0.0031308 ? 12.92 * in : 1.055 * std::pow(in, 1.0 / 2.4) - 0.055;
  return static_cast<std::uint8_t>(std::lround(out * 255.0));
}

Box water_box(const Lake& lake) {
  const Frame& frame = lake.cover.frame();
  int top = frame.rows;
  int bottom = -1;
  int left = frame.cols;
  int right = -1;
  for (int row = 0; row < frame.rows; ++row) {
    const auto cells = lake.cover.row(row);
    for (int col = 0; col < frame.cols; ++col) {
      if (cells[static_cast<std::size_t>(col)] != Cover::water) continue;
      top = std::min(top, row);
      bottom = std::max(bottom, row);
      left = std::min(left, col);
      right = std::max(right, col);
    }
  }
  if (bottom < 0) return {frame.centre({frame.rows - 1, 0}), frame.centre({0, frame.cols - 1})};
  const double half = frame.cell.value() / 2.0;
  const XY low = frame.centre({bottom, left});
  const XY high = frame.centre({top, right});
  return {{low.x - half, low.y - half}, {high.x + half, high.y + half}};
}

void widen(double& low, double& high, double wanted) {
  const double more = std::max(0.0, (wanted - (high - low)) / 2.0);
  low -= more;
  high += more;
}

/// Where a row of pixels crosses the outline, as x of each crossing, ascending: between the first and second is
/// inside, and so on (even-odd rule).
std::vector<double> crossings(const std::vector<const Ring*>& rings, double y) {
  std::vector<double> xs;
  for (const Ring* ring : rings) {
    for (std::size_t i = 0; i + 1 < ring->size(); ++i) {
      const XY a = (*ring)[i];
      const XY b = (*ring)[i + 1];
      if ((a.y > y) == (b.y > y)) continue;
      xs.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
    }
  }
  std::sort(xs.begin(), xs.end());
  return xs;
}

/// Rings that meet each of a number of equal strips of the view from the north, so that a row asks few of them.
class RingStrips {
 public:
  RingStrips(const Polygons& outline, const MapView& view) : view_(view), strips_(kCount) {
    for (const Polygon& polygon : outline) {
      add(polygon.outer);
      for (const Ring& hole : polygon.holes) add(hole);
    }
  }
  [[nodiscard]] const std::vector<const Ring*>& at(double y) const { return strips_[strip(y)]; }

 private:
  static constexpr int kCount = 64;
  [[nodiscard]] std::size_t strip(double y) const {
    const double share = (view_.box.high.y - y) / view_.height();
    return static_cast<std::size_t>(std::clamp(static_cast<int>(share * kCount), 0, kCount - 1));
  }
  void add(const Ring& ring) {
    if (ring.empty()) return;
    const auto [low, high] = std::minmax_element(ring.begin(), ring.end(), [](XY a, XY b) { return a.y < b.y; });
    for (std::size_t i = strip(high->y); i <= strip(low->y); ++i) strips_[i].push_back(&ring);
  }
  MapView view_;
  std::vector<std::vector<const Ring*>> strips_;
};

struct Palette {
  std::array<Colour, kShades> shades;
  double max_depth;
  Palette(double deepest) : shades(), max_depth(deepest) {
    for (int i = 0; i < kShades; ++i) shades[static_cast<std::size_t>(i)] = ramp_colour(i / (kShades - 1.0));
  }
  [[nodiscard]] Colour of(double depth) const {
    const int shade = static_cast<int>(ramp_share(depth, max_depth) * kShades);
    return shades[static_cast<std::size_t>(std::clamp(shade, 0, kShades - 1))];
  }
};

/// One pixel: what lies at a place, by the outline first and the cells second.
void paint(std::uint8_t* pixel, const Lake& lake, const Palette& palette, XY place, bool inside) {
  const Cell cell = lake.depth.frame().cell_at(place);
  const Cover cover = lake.cover.holds(cell) ? lake.cover[cell] : Cover::unknown;
  float depth = inside ? depth_at(lake, place) : std::nanf("");
  if (inside && std::isnan(depth) && cover == Cover::water) depth = lake.depth[cell].value();
  if (!std::isnan(depth)) {
    const Colour colour = palette.of(depth);
    std::copy(colour.begin(), colour.end(), pixel);
    pixel[3] = 255;
  } else if (!inside && cover != Cover::unknown) {
    std::copy(kLand.begin(), kLand.end(), pixel);
  }
}

std::string picture_of(const Lake& lake, const MapView& view, int side) {
  const double pixel = std::max(view.width(), view.height()) / side;
  const int cols = std::max(1, static_cast<int>(std::lround(view.width() / pixel)));
  const int rows = std::max(1, static_cast<int>(std::lround(view.height() / pixel)));
  std::vector<std::uint8_t> pixels(std::size_t{4} * static_cast<std::size_t>(cols) * static_cast<std::size_t>(rows));
  const Palette palette(lake.max_depth.value());
  const RingStrips rings(lake.outline, view);
  sweep(rows, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      const double y = view.box.high.y - (row + 0.5) * view.height() / rows;
      const std::vector<double> xs = crossings(rings.at(y), y);
      std::size_t passed = 0;
      for (int col = 0; col < cols; ++col) {
        const double x = view.box.low.x + (col + 0.5) * view.width() / cols;
        while (passed < xs.size() && xs[passed] <= x) ++passed;
        const std::size_t at =
            static_cast<std::size_t>(row) * static_cast<std::size_t>(cols) + static_cast<std::size_t>(col);
        paint(&pixels[4 * at], lake, palette, {x, y}, passed % 2 == 1);
      }
    }
  });
  return png(pixels, cols, rows);
}

}  // namespace

Metres MapView::pixel() const { return Metres(std::max(width(), height()) / kPictureSide); }

XY MapView::percent(XY place) const {
  return {(place.x - box.low.x) / width() * 100.0, (box.high.y - place.y) / height() * 100.0};
}

MapView view_of(const Lake& lake, const Points& also) {
  Box box = water_box(lake);
  for (const XY place : also) {
    box.low = {std::min(box.low.x, place.x), std::min(box.low.y, place.y)};
    box.high = {std::max(box.high.x, place.x), std::max(box.high.y, place.y)};
  }
  const double margin = 0.05 * std::max(box.high.x - box.low.x, box.high.y - box.low.y);
  box.low = box.low - XY{margin, margin};
  box.high = box.high + XY{margin, margin};
  widen(box.low.x, box.high.x, 0.75 * (box.high.y - box.low.y));
  widen(box.low.y, box.high.y, (box.high.x - box.low.x) / 1.9);
  MapView view{box, 0.1};
  while (std::max(view.width(), view.height()) / view.unit > 200000.0) view.unit *= 10.0;
  return view;
}

Colour ramp_colour(double share) {
  const double t = std::clamp(share, 0.0, 1.0);
  const double lightness = 0.955 - 0.545 * t;
  const double chroma = 0.022 + 0.075 * std::min(1.0, 1.6 * t) - 0.028 * t;
  const double a = chroma * std::cos(200.0 * kRadians);
  const double b = chroma * std::sin(200.0 * kRadians);
  const double l = std::pow(lightness + 0.3963377774 * a + 0.2158037573 * b, 3);
  const double m = std::pow(lightness - 0.1055613458 * a - 0.0638541728 * b, 3);
  const double s = std::pow(lightness - 0.0894841775 * a - 1.2914855480 * b, 3);
  return {srgb_byte(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s),
          srgb_byte(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s),
          srgb_byte(-0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s)};
}

double ramp_share(double depth_m, double max_depth_m) {
  if (!(max_depth_m > 0.0)) return 0.0;
  return std::pow(std::clamp(depth_m / max_depth_m, 0.0, 1.0), kRampPower);
}

std::string ramp_gradient() {
  std::string stops;
  for (int i = 0; i <= 12; ++i) {
    const Colour c = ramp_colour(i / 12.0);
    stops += fmt::format("{}#{:02x}{:02x}{:02x}", i == 0 ? "" : ",", c[0], c[1], c[2]);
  }
  return stops;
}

std::string depth_picture(const Lake& lake, const MapView& view) {
  std::string bytes;
  for (const int side : {kPictureSide, 1000, 700, 500}) {
    bytes = picture_of(lake, view, side);
    if (bytes.size() <= kMostBytes) break;
  }
  return bytes;
}

Grid<Metres32> contour_field(const Lake& lake, const MapView& view) {
  const Metres pixel = view.pixel();
  if (lake.depth.frame().cell >= pixel) return lake.depth;
  const Frame frame{{view.box.low.x, view.box.high.y},
                    pixel,
                    static_cast<int>(std::ceil(view.height() / pixel.value())),
                    static_cast<int>(std::ceil(view.width() / pixel.value()))};
  Grid<Metres32> field(frame);
  sweep(frame.rows, [&](const Band& band) {
    for (int row = band.first; row < band.last; ++row) {
      for (int col = 0; col < frame.cols; ++col) {
        field[Cell{row, col}] = Metres32(depth_at(lake, frame.centre({row, col})));
      }
    }
  });
  return field;
}

ContourStep contour_step(Metres max_depth, Units units) {
  const double in_unit = units == Units::metric ? 1.0 : 0.3048;
  const double deepest = max_depth.value() / in_unit;
  const std::vector<double> steps = units == Units::metric ? std::vector<double>{0.5, 1, 2, 5, 10, 20, 50, 100}
                                                           : std::vector<double>{1, 2, 5, 10, 20, 50, 100, 200};
  for (const double step : steps) {
    if (deepest / step <= 11.0) return {step, step * in_unit};
  }
  return {500.0, 500.0 * in_unit};
}

}  // namespace castplan
