// SPDX-FileCopyrightText: 2026 The castplan authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace castplan::sheet {

inline constexpr double kMm = 72.0 / 25.4;  ///< points a millimetre

/// A place on the paper: points from its upper left corner, y down.
struct Place {
  double x{}, y{};
};
struct Area {
  double left{}, top{}, width{}, height{};
  [[nodiscard]] double right() const { return left + width; }
  [[nodiscard]] double bottom() const { return top + height; }
};
using Outline = std::vector<Place>;

/// 0 is black, 1 is white. There is no colour on the sheet, only on pictures.
struct Shade {
  constexpr Shade(double grey) : red(grey), green(grey), blue(grey) {}  // NOLINT: a grey is a shade
  constexpr Shade(double r, double g, double b) : red(r), green(g), blue(b) {}
  double red, green, blue;
};
struct Font {
  double size{};  ///< points
  bool bold = false;
};
struct Ink {
  double width{};  ///< points
  Shade shade = 0.0;
  std::vector<double> dash{};
};

/// What a picture becomes: dots, so many a point, or a drawing in which letters are shapes.
enum class PictureKind { png, svg };

/// What stands in the document's own properties.
struct DocumentInfo {
  std::string title, subject, keywords, creator;
  std::string date;                ///< ISO 8601
  std::string file = "sheet.pdf";  ///< that errors name
};

/// A tagged PDF of one page or more, each drawn from top to bottom with the one font family that is built into the
/// program. Equal calls give equal bytes, whatever fonts the machine has. Letters that the family does not have are
/// drawn as boxes.
class Canvas {
 public:
  Canvas(double width, double height, const DocumentInfo& info);
  /// A picture on white instead; it has no structure tree, so tags do nothing.
  Canvas(PictureKind kind, double width, double height, double dots_a_point);
  ~Canvas();
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;

  [[nodiscard]] double width_of(std::string_view text, Font font) const;
  /// y is the baseline. The text should be `one_line`.
  void text(Place at, std::string_view text, Font font);
  void centred(Place at, std::string_view text, Font font);
  void ending(Place at, std::string_view text, Font font);
  /// With a white rim, so that it can be read on lines; turned by an angle in radians, clockwise, about its middle.
  void label(Place middle, std::string_view text, Font font, double turn = 0.0);

  void line(Place from, Place to, const Ink& ink);
  void stroke(const std::vector<Outline>& lines, const Ink& ink);
  void frame(Area area, const Ink& ink);
  void fill(const std::vector<Outline>& rings, Shade shade);  ///< even-odd rule
  void fill(Area area, Shade shade);
  void disc(Place middle, double radius, Shade shade);
  void hatch(const std::vector<Outline>& rings, double spacing, const Ink& ink);  ///< slanting lines, even-odd rule
  void clip(Area area);                                                           ///< until `unclip`
  void unclip();

  /// The next page, of the same size. Only tags that hold other tags may be open.
  void next_page();

  void begin(const char* tag);  ///< of the structure tree: H1, P, Table...
  void end(const char* tag);

  /// True once a letter was met that stands as a box.
  [[nodiscard]] bool missed_letters() const { return missed_; }

  /// The document; nothing can be drawn after it.
  std::string finish();

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
  mutable bool missed_ = false;
};

/// A tag that closes at the end of its block.
class Tagged {
 public:
  Tagged(Canvas& canvas, const char* tag) : canvas_(canvas), tag_(tag) { canvas_.begin(tag_); }
  ~Tagged() { canvas_.end(tag_); }
  Tagged(const Tagged&) = delete;
  Tagged& operator=(const Tagged&) = delete;

 private:
  Canvas& canvas_;
  const char* tag_;
};

/// What cairo 1.16 cannot say: the language, that the title is shown, what figures are, which cells are heads of what;
/// and an identifier that depends on the content alone. figures: one text each, in the order in which they were drawn.
/// file: that errors name.
std::string finished_pdf(const std::string& bytes, const std::vector<std::string>& figures,
                         const std::string& file = "sheet.pdf");

/// Lines no wider than the room; words that are wider are broken. At most `most` lines, the last of them then ends with
/// dots.
std::vector<std::string> wrapped(const Canvas& canvas, const std::string& text, Font font, double room,
                                 std::size_t most = 1000);
/// One line, cut with dots at its end where it is wider.
std::string fitted(const Canvas& canvas, const std::string& text, Font font, double room);

}  // namespace castplan::sheet
