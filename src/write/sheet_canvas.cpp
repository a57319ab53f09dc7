// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#include "write/sheet_canvas.hpp"

#include <cairo-ft.h>
#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <ft2build.h>
#include FT_FREETYPE_H

#include <algorithm>
#include <cmath>

#include "castplan/geo/error.hpp"
#include "castplan_font.hpp"

namespace castplan::sheet {
namespace {

constexpr std::string_view kBox = "\xEF\xBF\xBD";  // U+FFFD, which both faces have

// One face of the family, read from the program itself and kept until it ends: cairo keeps a font for as long as it
// likes.
struct Face {
  FT_Face letters{};
  cairo_font_face_t* drawn{};

  explicit Face(std::string_view name) {
    static FT_Library library = [] {
      FT_Library made{};
      if (FT_Init_FreeType(&made) != 0) throw OutputError("sheet.pdf: the font library does not start");
      return made;
    }();
    for (const castplan_font::File& file : castplan_font::files()) {
      if (file.name != name) continue;
      const auto* bytes = reinterpret_cast<const FT_Byte*>(file.text.data());
      if (FT_New_Memory_Face(library, bytes, static_cast<FT_Long>(file.text.size()), 0, &letters) != 0) break;
      drawn = cairo_ft_font_face_create_for_ft_face(letters, FT_LOAD_NO_HINTING);
    }
    if (drawn == nullptr) throw OutputError("sheet.pdf: the font that is built in cannot be read");
  }
};

const Face& face_of(Font font) {
  static const Face regular("RobotoCondensed-Regular.ttf");
  static const Face bold("RobotoCondensed-Bold.ttf");
  return font.bold ? bold : regular;
}

// The letter at the front of valid UTF-8, and how many bytes it takes.
std::pair<FT_ULong, std::size_t> front_letter(std::string_view text) {
  const auto lead = static_cast<unsigned char>(text.front());
  const std::size_t bytes = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
  FT_ULong letter = bytes == 1 ? lead : lead & (0x7FU >> bytes);
  for (std::size_t at = 1; at < bytes && at < text.size(); ++at) {
    letter = letter << 6U | (static_cast<unsigned char>(text[at]) & 0x3FU);
  }
  return {letter, std::min(bytes, text.size())};
}

std::string with_boxes(std::string_view text, const Face& face, bool& missed) {
  std::string out;
  while (!text.empty()) {
    const auto [letter, bytes] = front_letter(text);
    const bool has = FT_Get_Char_Index(face.letters, letter) != 0 && letter != 0xFFFD;
    out += has ? text.substr(0, bytes) : kBox;
    missed = missed || !has;
    text.remove_prefix(bytes);
  }
  return out;
}

cairo_status_t take(void* out, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(out)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

struct Canvas::Impl {
  std::string file;  ///< that errors name
  bool tagged = true;
  std::string bytes;
  cairo_surface_t* surface{};
  cairo_t* pen{};

  void use(Font font) const {
    cairo_set_font_face(pen, face_of(font).drawn);
    cairo_set_font_size(pen, font.size);
  }
  void use(Shade shade) const { cairo_set_source_rgb(pen, shade.red, shade.green, shade.blue); }
  void use(const Ink& ink) const {
    use(ink.shade);
    cairo_set_line_width(pen, ink.width);
    cairo_set_dash(pen, ink.dash.data(), static_cast<int>(ink.dash.size()), 0.0);
  }
  // Nothing of the machine's own settings comes into what is drawn.
  void settle() const {
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    cairo_set_font_options(pen, options);
    cairo_font_options_destroy(options);
    cairo_set_line_join(pen, CAIRO_LINE_JOIN_ROUND);
    cairo_set_fill_rule(pen, CAIRO_FILL_RULE_EVEN_ODD);
  }
  void path(const std::vector<Outline>& lines) const {
    cairo_new_path(pen);
    for (const Outline& line : lines) {
      for (std::size_t i = 0; i < line.size(); ++i) {
        i == 0 ? cairo_move_to(pen, line[i].x, line[i].y) : cairo_line_to(pen, line[i].x, line[i].y);
      }
    }
  }
};

Canvas::Canvas(double width, double height, const DocumentInfo& info) : impl_(std::make_unique<Impl>()) {
  impl_->file = info.file;
  impl_->surface = cairo_pdf_surface_create_for_stream(take, &impl_->bytes, width, height);
  impl_->pen = cairo_create(impl_->surface);
  const auto say = [&](cairo_pdf_metadata_t what, const std::string& text) {
    if (!text.empty()) cairo_pdf_surface_set_metadata(impl_->surface, what, text.c_str());
  };
  say(CAIRO_PDF_METADATA_TITLE, info.title);
  say(CAIRO_PDF_METADATA_SUBJECT, info.subject);
  say(CAIRO_PDF_METADATA_KEYWORDS, info.keywords);
  say(CAIRO_PDF_METADATA_CREATOR, info.creator);
  say(CAIRO_PDF_METADATA_CREATE_DATE, info.date);
  say(CAIRO_PDF_METADATA_MOD_DATE, info.date);
  impl_->settle();
}

Canvas::Canvas(PictureKind kind, double width, double height, double dots_a_point) : impl_(std::make_unique<Impl>()) {
  const bool dots = kind == PictureKind::png;
  impl_->file = dots ? "map.png" : "map.svg";
  impl_->tagged = false;
  impl_->surface =
      dots ? cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(std::lround(width * dots_a_point)),
                                        static_cast<int>(std::lround(height * dots_a_point)))
           : cairo_svg_surface_create_for_stream(take, &impl_->bytes, width, height);
  if (dots) cairo_surface_set_device_scale(impl_->surface, dots_a_point, dots_a_point);
  impl_->pen = cairo_create(impl_->surface);
  impl_->settle();
  impl_->use(Shade(1.0));
  cairo_paint(impl_->pen);  // the last row of dots too, where the height is no whole number of them
}

Canvas::~Canvas() {
  if (impl_->pen != nullptr) cairo_destroy(impl_->pen);
  if (impl_->surface != nullptr) {
    cairo_surface_finish(impl_->surface);
    cairo_surface_destroy(impl_->surface);
  }
}

double Canvas::width_of(std::string_view text, Font font) const {
  impl_->use(font);
  cairo_text_extents_t size;
  cairo_text_extents(impl_->pen, with_boxes(text, face_of(font), missed_).c_str(), &size);
  return size.x_advance;
}

void Canvas::text(Place at, std::string_view text, Font font) {
  if (text.empty()) return;
  impl_->use(font);
  cairo_set_source_rgb(impl_->pen, 0, 0, 0);
  cairo_move_to(impl_->pen, at.x, at.y);
  cairo_show_text(impl_->pen, with_boxes(text, face_of(font), missed_).c_str());
}

void Canvas::centred(Place at, std::string_view words, Font font) {
  text({at.x - width_of(words, font) / 2.0, at.y}, words, font);
}

void Canvas::ending(Place at, std::string_view words, Font font) {
  text({at.x - width_of(words, font), at.y}, words, font);
}

void Canvas::label(Place middle, std::string_view words, Font font, double turn) {
  const double half = width_of(words, font) / 2.0;
  const double drop = 0.356 * font.size;  // half the height of a figure of this family
  cairo_save(impl_->pen);
  cairo_translate(impl_->pen, middle.x, middle.y);
  cairo_rotate(impl_->pen, turn);
  fill(Area{-half - 1.0, -drop - 1.0, 2.0 * half + 2.0, 2.0 * drop + 2.0}, 1.0);
  text({-half, drop}, words, font);
  cairo_restore(impl_->pen);
}

void Canvas::line(Place from, Place to, const Ink& ink) { stroke({{from, to}}, ink); }

void Canvas::stroke(const std::vector<Outline>& lines, const Ink& ink) {
  impl_->use(ink);
  impl_->path(lines);
  cairo_stroke(impl_->pen);
}

void Canvas::frame(Area area, const Ink& ink) {
  impl_->use(ink);
  cairo_new_path(impl_->pen);
  cairo_rectangle(impl_->pen, area.left, area.top, area.width, area.height);
  cairo_stroke(impl_->pen);
}

void Canvas::fill(const std::vector<Outline>& rings, Shade shade) {
  impl_->use(shade);
  impl_->path(rings);
  cairo_fill(impl_->pen);
}

void Canvas::fill(Area area, Shade shade) {
  impl_->use(shade);
  cairo_new_path(impl_->pen);
  cairo_rectangle(impl_->pen, area.left, area.top, area.width, area.height);
  cairo_fill(impl_->pen);
}

void Canvas::disc(Place middle, double radius, Shade shade) {
  impl_->use(shade);
  cairo_new_path(impl_->pen);
  cairo_arc(impl_->pen, middle.x, middle.y, radius, 0.0, 2.0 * 3.14159265358979323846);
  cairo_fill(impl_->pen);
}

void Canvas::hatch(const std::vector<Outline>& rings, double spacing, const Ink& ink) {
  Place low{1e9, 1e9};
  Place high{-1e9, -1e9};
  for (const Outline& ring : rings) {
    for (const Place at : ring) {
      low = {std::min(low.x, at.x), std::min(low.y, at.y)};
      high = {std::max(high.x, at.x), std::max(high.y, at.y)};
    }
  }
  if (low.x > high.x) return;
  cairo_save(impl_->pen);
  impl_->path(rings);
  cairo_clip(impl_->pen);
  const double tall = high.y - low.y;
  std::vector<Outline> lines;
  // at even places of the paper, so that neighbouring areas join
  const int last = static_cast<int>(std::ceil(high.x / spacing));
  for (int i = static_cast<int>(std::floor((low.x - tall) / spacing)); i <= last; ++i) {
    const double x = i * spacing;
    lines.push_back({{x, high.y}, {x + tall, low.y}});
  }
  stroke(lines, ink);
  cairo_restore(impl_->pen);
}

void Canvas::clip(Area area) {
  cairo_save(impl_->pen);
  cairo_new_path(impl_->pen);
  cairo_rectangle(impl_->pen, area.left, area.top, area.width, area.height);
  cairo_clip(impl_->pen);
}

void Canvas::unclip() { cairo_restore(impl_->pen); }

void Canvas::next_page() { cairo_show_page(impl_->pen); }

void Canvas::begin(const char* tag) {
  if (impl_->tagged) cairo_tag_begin(impl_->pen, tag, nullptr);
}

void Canvas::end(const char* tag) {
  if (impl_->tagged) cairo_tag_end(impl_->pen, tag);
}

std::string Canvas::finish() {
  cairo_show_page(impl_->pen);
  const cairo_status_t drawn = cairo_status(impl_->pen);
  cairo_destroy(impl_->pen);
  impl_->pen = nullptr;
  const bool dots = cairo_surface_get_type(impl_->surface) == CAIRO_SURFACE_TYPE_IMAGE;
  cairo_status_t written = dots ? cairo_surface_write_to_png_stream(impl_->surface, take, &impl_->bytes) : drawn;
  cairo_surface_finish(impl_->surface);
  if (!dots) written = cairo_surface_status(impl_->surface);
  for (const cairo_status_t status : {drawn, written}) {
    if (status != CAIRO_STATUS_SUCCESS) {
      throw OutputError(impl_->file + ": cannot be drawn: " + cairo_status_to_string(status));
    }
  }
  return std::move(impl_->bytes);
}

}  // namespace castplan::sheet
