#include "paper/pen.hpp"

#include <algorithm>
#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>
#include <cmath>
#include <cstring>
#include <numbers>

namespace huewright {
namespace {

constexpr double kPointsPerMm = 72 / 25.4;
constexpr const char* kFamily = "DejaVu Sans";

cairo_status_t append(void* bytes, const unsigned char* data, unsigned length) try {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
} catch (const std::bad_alloc&) {
  return CAIRO_STATUS_NO_MEMORY;
}

std::unexpected<Problem> failed(cairo_status_t status) {
  if (status == CAIRO_STATUS_NO_MEMORY) return fail(Code::OutOfMemory, "a page");
  return fail(Code::Internal, cairo_status_to_string(status));
}

std::string asXml(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '&') out += "&amp;";
    else if (c == '<') out += "&lt;";
    else if (c == '>') out += "&gt;";
    else if (static_cast<unsigned char>(c) >= ' ') out += c;
  }
  return out;
}

}  // namespace

struct Pen::Surface {
  std::string bytes;
  cairo_surface_t* surface = nullptr;
  cairo_t* cairo = nullptr;
  enum class Kind { Picture, Pdf, Svg } kind = Kind::Picture;
  std::string title;  // of an SVG
  double per_mm = 1;
  std::vector<Quad> type;
  cairo_status_t image_status = CAIRO_STATUS_SUCCESS;  // of the first picture that could not be put on the page

  Surface() = default;
  Surface(const Surface&) = delete;
  Surface& operator=(const Surface&) = delete;
  ~Surface() {
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
  }

  void start() {
    cairo = cairo_create(surface);
    cairo_scale(cairo, per_mm, per_mm);
    // Letters keep their shapes and widths whatever they are drawn on.
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_set_font_options(cairo, options);
    cairo_font_options_destroy(options);
    cairo_set_line_cap(cairo, CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
  }

  void dip(const Ink& ink) { cairo_set_source_rgb(cairo, ink.r, ink.g, ink.b); }

  void face(const Type& wanted) {
    cairo_select_font_face(cairo, kFamily, CAIRO_FONT_SLANT_NORMAL, wanted.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cairo, wanted.size);
  }

  void stroke(double width, const Ink& ink, double dash) {
    dip(ink);
    cairo_set_line_width(cairo, width);
    cairo_set_dash(cairo, &dash, dash > 0 ? 1 : 0, 0);
    cairo_stroke(cairo);
  }

  void path(std::span<const Point> points) {
    cairo_new_path(cairo);
    for (const Point& p : points) cairo_line_to(cairo, p.x, p.y);
  }

  Result<std::string> finished() {
    if (image_status != CAIRO_STATUS_SUCCESS) return failed(image_status);
    if (const auto status = cairo_status(cairo); status != CAIRO_STATUS_SUCCESS) return failed(status);
    cairo_show_page(cairo);
    cairo_surface_finish(surface);
    if (const auto status = cairo_surface_status(surface); status != CAIRO_STATUS_SUCCESS) return failed(status);
    return bytes;
  }

  Point onPage(double x, double y) const {
    cairo_user_to_device(cairo, &x, &y);
    return {x / per_mm, y / per_mm};
  }
};

Pen::Pen(std::unique_ptr<Surface> surface) : surface_(std::move(surface)) { surface_->start(); }
Pen::Pen(Pen&&) noexcept = default;
Pen& Pen::operator=(Pen&&) noexcept = default;
Pen::~Pen() = default;

Pen Pen::pdf(double width, double height, const std::string& title) {
  auto s = std::make_unique<Surface>();
  s->kind = Surface::Kind::Pdf;
  s->per_mm = kPointsPerMm;
  s->surface = cairo_pdf_surface_create_for_stream(append, &s->bytes, width * kPointsPerMm, height * kPointsPerMm);
  cairo_pdf_surface_restrict_to_version(s->surface, CAIRO_PDF_VERSION_1_5);
  cairo_pdf_surface_set_metadata(s->surface, CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(s->surface, CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");  // else it would be today
  return Pen(std::move(s));
}

Pen Pen::svg(double width, double height, const std::string& title) {
  auto s = std::make_unique<Surface>();
  s->kind = Surface::Kind::Svg;
  s->title = title;
  s->per_mm = kPointsPerMm;
  s->surface = cairo_svg_surface_create_for_stream(append, &s->bytes, width * kPointsPerMm, height * kPointsPerMm);
  cairo_svg_surface_set_document_unit(s->surface, CAIRO_SVG_UNIT_PT);
  Pen pen(std::move(s));
  pen.box(0, 0, width, height, 1);
  return pen;
}

Pen Pen::picture(double width, double height, double dpi) {
  auto s = std::make_unique<Surface>();
  s->per_mm = dpi / 25.4;
  const auto pixels = [&](double mm) { return static_cast<int>(std::lround(mm * s->per_mm)); };
  s->surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, pixels(width), pixels(height));
  Pen pen(std::move(s));
  pen.surface_->dip(1);
  cairo_paint(pen.surface_->cairo);
  return pen;
}

void Pen::push(Point origin, double scale) {
  cairo_save(surface_->cairo);
  cairo_translate(surface_->cairo, origin.x, origin.y);
  cairo_scale(surface_->cairo, scale, scale);
}

void Pen::pop() { cairo_restore(surface_->cairo); }

void Pen::box(double x, double y, double width, double height, Ink ink) {
  surface_->dip(ink);
  cairo_new_path(surface_->cairo);
  cairo_rectangle(surface_->cairo, x, y, width, height);
  cairo_fill(surface_->cairo);
}

void Pen::disc(Point centre, double radius, Ink ink) {
  surface_->dip(ink);
  cairo_new_path(surface_->cairo);
  cairo_arc(surface_->cairo, centre.x, centre.y, radius, 0, 2 * std::numbers::pi);
  cairo_fill(surface_->cairo);
}

void Pen::polygon(std::span<const Point> corners, Ink ink) {
  surface_->path(corners);
  surface_->dip(ink);
  cairo_fill(surface_->cairo);
}

void Pen::line(std::span<const Point> through, double width, Ink ink, double dash) {
  surface_->path(through);
  surface_->stroke(width, ink, dash);
}

void Pen::circle(Point centre, double radius, double width, Ink ink) { arc(centre, radius, 0, 360, width, ink); }

void Pen::arc(Point centre, double radius, double from, double to, double width, Ink ink) {
  constexpr double kRadians = std::numbers::pi / 180;
  cairo_new_path(surface_->cairo);
  cairo_arc(surface_->cairo, centre.x, centre.y, radius, from * kRadians, to * kRadians);
  surface_->stroke(width, ink, 0);
}

void Pen::image(double x, double y, double width, double height, Size size, std::span<const std::uint8_t> rgb) {
  Surface& s = *surface_;
  const auto columns = static_cast<std::size_t>(std::max(0, size.width)), rows = static_cast<std::size_t>(std::max(0, size.height));
  if (columns == 0 || rows == 0 || rgb.size() != 3 * columns * rows) {
    s.image_status = CAIRO_STATUS_INVALID_SIZE;
    return;
  }
  cairo_surface_t* picture = cairo_image_surface_create(CAIRO_FORMAT_RGB24, size.width, size.height);
  if (const auto status = cairo_surface_status(picture); status != CAIRO_STATUS_SUCCESS) {
    s.image_status = status;
    cairo_surface_destroy(picture);
    return;
  }
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(picture));
  unsigned char* data = cairo_image_surface_get_data(picture);
  const std::uint8_t* from = rgb.data();
  for (std::size_t row = 0; row < rows; ++row)
    for (std::size_t column = 0; column < columns; ++column, from += 3) {
      const std::uint32_t pixel = std::uint32_t{from[0]} << 16 | std::uint32_t{from[1]} << 8 | from[2];
      std::memcpy(data + row * stride + 4 * column, &pixel, 4);
    }
  cairo_surface_mark_dirty(picture);
  cairo_save(s.cairo);
  cairo_rectangle(s.cairo, x, y, width, height);
  cairo_clip(s.cairo);
  cairo_translate(s.cairo, x, y);
  cairo_scale(s.cairo, width / size.width, height / size.height);
  cairo_set_source_surface(s.cairo, picture, 0, 0);
  double dx = 1, dy = 1;
  cairo_user_to_device_distance(s.cairo, &dx, &dy);
  const bool smaller = std::min(std::abs(dx), std::abs(dy)) < 0.999;
  cairo_pattern_set_filter(cairo_get_source(s.cairo), smaller && s.kind == Surface::Kind::Picture ? CAIRO_FILTER_GOOD : CAIRO_FILTER_NEAREST);
  cairo_pattern_set_extend(cairo_get_source(s.cairo), CAIRO_EXTEND_PAD);  // its rim does not mix with the page
  cairo_paint(s.cairo);
  cairo_restore(s.cairo);
  cairo_surface_destroy(picture);  // the page keeps what it needs of it
}

std::vector<std::string> Pen::wrapped(std::string_view text, const Type& type, double width) {
  std::vector<std::string> lines(1);
  while (!text.empty()) {
    const auto end = std::min(text.find(' '), text.size());
    const std::string word(text.substr(0, end));
    const std::string longer = lines.back().empty() ? word : lines.back() + " " + word;
    if (lines.back().empty() || widthOf(longer, type) <= width) lines.back() = longer;
    else lines.push_back(word);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

double Pen::widthOf(std::string_view text, const Type& type) {
  surface_->face(type);
  cairo_text_extents_t extents;
  cairo_text_extents(surface_->cairo, std::string(text).c_str(), &extents);
  return extents.x_advance;
}

void Pen::text(Point at, std::string_view text, const Type& type) {
  Type fitted = type;
  double width = widthOf(text, fitted);
  if (type.widest > 0 && width > type.widest) {
    fitted.size *= type.widest / width;
    width = widthOf(text, fitted);
  }
  const double x = at.x - (type.align == Align::Centre ? width / 2 : type.align == Align::Right ? width : 0);
  const std::string words(text);
  cairo_text_extents_t ink;
  cairo_text_extents(surface_->cairo, words.c_str(), &ink);
  const double left = x + ink.x_bearing, top = at.y + ink.y_bearing;
  const double right = left + ink.width, bottom = top + ink.height;
  surface_->type.push_back({{{surface_->onPage(left, top), surface_->onPage(right, top), surface_->onPage(right, bottom), surface_->onPage(left, bottom)}}});
  surface_->dip(type.ink);
  cairo_move_to(surface_->cairo, x, at.y);
  cairo_show_text(surface_->cairo, words.c_str());
}

const std::vector<Quad>& Pen::typeBoxes() const { return surface_->type; }

Result<std::string> Pen::pdfBytes() try {
  if (surface_->kind != Surface::Kind::Pdf) return fail(Code::Internal, "a drawing asked for as a page");
  return surface_->finished();
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "a page");
}

Result<std::string> Pen::svgText() try {
  if (surface_->kind != Surface::Kind::Svg) return fail(Code::Internal, "a page asked for as a drawing");
  auto text = surface_->finished();
  if (!text) return text;
  // Cairo numbers its drawings through a whole run; that number is left out, so that the same strokes give the same bytes.
  constexpr std::string_view kNumbered = "<g id=\"surface";
  if (const auto group = text->find(kNumbered); group != std::string::npos)
    if (const auto quote = text->find('"', group + kNumbered.size()); quote != std::string::npos) text->erase(group + 2, quote + 1 - (group + 2));
  // And it writes no title of its own.
  const auto tag = text->find("<svg");
  const auto end = tag == std::string::npos ? tag : text->find('>', tag);
  if (end == std::string::npos) return fail(Code::Internal, "a drawing without its first element");
  text->insert(end + 1, "\n<title>" + asXml(surface_->title) + "</title>");
  return text;
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "a drawing");
}

Result<DrawnPicture> Pen::drawn() try {
  if (surface_->kind != Surface::Kind::Picture) return fail(Code::Internal, "a page asked for as a picture");
  cairo_surface_flush(surface_->surface);
  if (surface_->image_status != CAIRO_STATUS_SUCCESS) return failed(surface_->image_status);
  if (const auto status = cairo_status(surface_->cairo); status != CAIRO_STATUS_SUCCESS) return failed(status);
  DrawnPicture picture{{cairo_image_surface_get_width(surface_->surface), cairo_image_surface_get_height(surface_->surface)}, {}};
  const auto width = static_cast<std::size_t>(picture.size.width), height = static_cast<std::size_t>(picture.size.height);
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface_->surface));
  const unsigned char* data = cairo_image_surface_get_data(surface_->surface);
  picture.rgb.reserve(3 * width * height);
  for (std::size_t y = 0; y < height; ++y)
    for (std::size_t x = 0; x < width; ++x) {
      std::uint32_t pixel = 0;
      std::memcpy(&pixel, data + y * stride + 4 * x, 4);
      for (const int shift : {16, 8, 0}) picture.rgb.push_back(static_cast<std::uint8_t>(pixel >> shift & 0xFF));
    }
  return picture;
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "a picture");
}

}  // namespace huewright
