// Draws a page in millimetres: the same strokes into a vector PDF or into a picture. The only place that knows Cairo is pen.cpp.
#pragma once

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

/// One line of type. Set in DejaVu Sans, or in what the machine has in its place.
struct Type {
  double size = 3;        ///< of the font, mm; capitals are about 0.73 of it
  bool bold = false;
  Align align = Align::Left;
  double widest = 0;      ///< mm; a longer line is set smaller; 0: as it comes
  double grey = 0;
};

/// Millimetres; x to the right, y down from the page's top left. Greys are sRGB codes, 0 black to 1 white.
class Pen {
 public:
  /// A page of a PDF: one page, no date, the same bytes for the same strokes.
  static Pen pdf(double width, double height, const std::string& title);
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

  void box(double x, double y, double width, double height, double grey = 0);  ///< filled, with hard edges
  void disc(Point centre, double radius, double grey = 0);                     ///< filled
  void polygon(std::span<const Point> corners, double grey = 0);               ///< filled
  /// Round ends and corners. dash: length of dashes and gaps, 0 for none.
  void line(std::span<const Point> through, double width, double grey = 0, double dash = 0);
  void circle(Point centre, double radius, double width, double grey = 0);
  /// Part of a circle; degrees from the x axis, clockwise as seen.
  void arc(Point centre, double radius, double from, double to, double width, double grey = 0);

  /// Width of a line of type, mm, before it is made to fit.
  double widthOf(std::string_view text, const Type& type);
  /// `at`: the left end, middle or right end of the base line.
  void text(Point at, std::string_view text, const Type& type);

  /// Corners, in page millimetres, of the ink of every line of type so far: for the tests.
  const std::vector<Quad>& typeBoxes() const;

  /// Ends the page. Errors: Internal for a pen of the other kind, OutOfMemory.
  Result<std::string> pdfBytes();
  Result<DrawnPicture> drawn();

 private:
  struct Surface;
  explicit Pen(std::unique_ptr<Surface> surface);
  std::unique_ptr<Surface> surface_;
};

}  // namespace huewright
