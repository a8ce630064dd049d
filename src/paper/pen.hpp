// Draws a page in millimetres: the same strokes into a vector PDF, an SVG or a picture. The only place that knows Cairo is pen.cpp.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "photo/geometry.hpp"

namespace huewright {

/// 8-bit sRGB, interleaved.
struct DrawnPicture {
  Size size;
  std::vector<std::uint8_t> rgb;
};

enum class Align { Left, Centre, Right };

/// What strokes are drawn with: sRGB codes, 0..1. A plain number is a grey, 0 black to 1 white.
struct Ink {
  double r = 0, g = 0, b = 0;
  constexpr Ink(double grey = 0) : r(grey), g(grey), b(grey) {}  // NOLINT: a plain number is meant to be a grey
  constexpr Ink(double red, double green, double blue) : r(red), g(green), b(blue) {}
  explicit constexpr Ink(const std::array<std::uint8_t, 3>& rgb) : r(rgb[0] / 255.0), g(rgb[1] / 255.0), b(rgb[2] / 255.0) {}
};

/// One line of type. Set in DejaVu Sans, or in what the machine has in its place.
struct Type {
  double size = 3;        ///< of the font, mm; capitals are about 0.73 of it
  bool bold = false;
  Align align = Align::Left;
  double widest = 0;      ///< mm; a longer line is set smaller; 0: as it comes
  Ink ink = 0.0;
};

/// Millimetres; x to the right, y down from the page's top left.
class Pen {
 public:
  /// A page of a PDF: one page, no date, the same bytes for the same strokes.
  static Pen pdf(double width, double height, const std::string& title);
  /// A white SVG drawing, type as outlines; the title stands in its <title> element. The same bytes for the same strokes.
  static Pen svg(double width, double height, const std::string& title);
  /// A white picture with so many dots an inch.
  static Pen picture(double width, double height, double dpi);
  Pen(Pen&&) noexcept;
  Pen& operator=(Pen&&) noexcept;
  Pen(const Pen&) = delete;
  Pen& operator=(const Pen&) = delete;
  ~Pen();

  /// Until the matching pop, (0, 0) lies at that point and everything is so many times as large.
  void push(Point origin, double scale = 1);
  void pop();

  void box(double x, double y, double width, double height, Ink ink = 0.0);  ///< filled, with hard edges
  void disc(Point centre, double radius, Ink ink = 0.0);                     ///< filled
  void polygon(std::span<const Point> corners, Ink ink = 0.0);               ///< filled
  /// Round ends and corners. dash: length of dashes and gaps, 0 for none.
  void line(std::span<const Point> through, double width, Ink ink = 0.0, double dash = 0);
  void circle(Point centre, double radius, double width, Ink ink = 0.0);
  /// Part of a circle; degrees from the x axis, clockwise as seen.
  void arc(Point centre, double radius, double from, double to, double width, Ink ink = 0.0);

  /// A picture, 8-bit sRGB interleaved, stretched over that box: its own pixels where it is enlarged, averaged where it is made smaller.
  /// Bytes of the wrong length draw nothing, and end in Internal.
  void image(double x, double y, double width, double height, Size size, std::span<const std::uint8_t> rgb);

  /// Width of a line of type, mm, before it is made to fit.
  double widthOf(std::string_view text, const Type& type);
  /// `at`: the left end, middle or right end of the base line.
  void text(Point at, std::string_view text, const Type& type);

  /// Words broken into lines that are no wider than that; a word that is wider has a line of its own.
  std::vector<std::string> wrapped(std::string_view text, const Type& type, double width);

  /// Corners, in page millimetres, of the ink of every line of type so far: for the tests.
  const std::vector<Quad>& typeBoxes() const;

  /// Ends the page. Errors: Internal for a pen of the other kind, OutOfMemory.
  Result<std::string> pdfBytes();
  Result<std::string> svgText();
  Result<DrawnPicture> drawn();

 private:
  struct Surface;
  explicit Pen(std::unique_ptr<Surface> surface);
  std::unique_ptr<Surface> surface_;
};

}  // namespace huewright
