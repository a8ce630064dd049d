#include "paper/mat_sheet.hpp"

#include <algorithm>
#include <array>
#include <span>
#include <string_view>

#include "paper/pictogram.hpp"

namespace huewright {
namespace {

constexpr double kDotGrey = 0.5;
constexpr double kFaint = 0.45;         // ticks and cut lines: seen from near, no dark line in the photo
constexpr double kLineHeight = 1.32;    // of the font's size
constexpr double kLowArea = 10;         // mm; an area below this has room for one line
constexpr double kFullHeight = 20;      // mm of a head area that the sizes below are meant for

/// Words broken into lines about equally long, none wider than that.
std::vector<std::string> broken(Pen& pen, std::string_view text, const Type& type, double width) {
  auto lines = pen.wrapped(text, type, width);
  for (double less = 0.95 * width; less > 0.3 * width; less -= 0.05 * width) {
    auto narrower = pen.wrapped(text, type, less);
    const bool too_wide = std::ranges::any_of(narrower, [&](const std::string& line) { return pen.widthOf(line, type) > less; });
    if (too_wide || narrower.size() > lines.size()) break;
    lines = std::move(narrower);
  }
  return lines;
}

Point anchor(const MatRect& area, Align align) {
  return {area.x + (align == Align::Left ? 0 : align == Align::Centre ? area.width / 2 : area.width), area.y};
}

/// Sets words from the top of an area and gives the rest of the area back.
MatRect set(Pen& pen, MatRect area, std::string_view text, Type type) {
  for (const std::string& line : broken(pen, text, type, area.width)) {
    type.widest = area.width;
    const Point at = anchor(area, type.align);
    pen.text({at.x, at.y + type.size}, line, type);
    area.y += kLineHeight * type.size;
    area.height -= kLineHeight * type.size;
  }
  return area;
}

void drawMarker(Pen& pen, const MatMarker& marker) {
  const double cell = marker.side / kMatMarkerCells;
  pen.box(marker.x, marker.y, marker.side, marker.side);
  for (std::size_t row = 0; row < 4; ++row)
    for (std::size_t from = 0; from < 4;) {
      std::size_t to = from;  // a run of white cells is one box, so that no seam is left between them
      while (to < 4 && marker.white[row][to]) ++to;
      const double x = marker.x + static_cast<double>(from + 1) * cell, y = marker.y + static_cast<double>(row + 1) * cell;
      if (to > from) pen.box(x, y, static_cast<double>(to - from) * cell, cell, 1);
      from = std::max(to, from + 1);
    }
}

void drawTicks(Pen& pen, const MatRect& place, const MatTicks& ticks) {
  const double half = ticks.width / 2;
  for (const double x : {place.x, place.x + place.width})
    for (const double y : {place.y - ticks.gap - ticks.length, place.y + place.height + ticks.gap})
      pen.box(x - half, y, ticks.width, ticks.length, kFaint);
  for (const double y : {place.y, place.y + place.height})
    for (const double x : {place.x - ticks.gap - ticks.length, place.x + place.width + ticks.gap})
      pen.box(x, y - half, ticks.length, ticks.width, kFaint);
}

void drawLabel(Pen& pen, const MatRect& place, std::string_view name, std::string_view more, const MatLabels& labels, bool below) {
  const double middle = place.x + place.width / 2;
  const double base = below ? place.y + place.height + labels.gap + 0.75 * labels.size : place.y - labels.gap;
  pen.text({middle, base}, name, {labels.size, true, Align::Centre});
  if (!more.empty()) pen.text({middle, base + labels.size}, more, {0.72 * labels.size, false, Align::Centre});
}

void drawWindows(Pen& pen, const MatLayout& layout) {
  for (const MatWindow& window : layout.windows) {
    drawTicks(pen, window.place, layout.ticks);
    const std::string_view more = window.kind == MatWindowKind::Black ? "glossy, optional" : "";
    drawLabel(pen, window.place, matWindowName(window), more, layout.labels, window.label_below);
  }
  if (layout.aperture) {
    drawTicks(pen, *layout.aperture, layout.ticks);
    drawLabel(pen, *layout.aperture, "cut this window out", "", layout.labels, false);
  }
  for (const Point& centre : layout.dots.centres) pen.disc(centre, layout.dots.diameter / 2, kDotGrey);
}

/// An arrow that points up, with its tip at that point.
void drawArrow(Pen& pen, Point tip, double height) {
  const double wide = 0.55 * height, stem = 0.2 * height, neck = 0.52 * height;
  pen.polygon(std::array{tip, Point{tip.x + wide, tip.y + neck}, Point{tip.x + stem, tip.y + neck}, Point{tip.x + stem, tip.y + height},
                         Point{tip.x - stem, tip.y + height}, Point{tip.x - stem, tip.y + neck}, Point{tip.x - wide, tip.y + neck}});
}

constexpr std::string_view kOffPaint = "Keep this sheet off uncured paint.";

void drawHead(Pen& pen, const MatLayout& layout) {
  const auto& [title, lamp, caution, pictograms, notes] = layout.areas;
  if (lamp.height < kLowArea) {  // all in one line each
    const Type words{0.58 * lamp.height, true};
    const double width = pen.widthOf("LAMP ON THIS SIDE", words), arrow = 0.85 * lamp.height, left = lamp.x + (lamp.width - width) / 2;
    drawArrow(pen, {left - arrow, lamp.y}, arrow);
    drawArrow(pen, {left + width + arrow, lamp.y}, arrow);
    pen.text({left, lamp.y + 0.68 * lamp.height}, "LAMP ON THIS SIDE", words);
    pen.text({title.x, title.y + 0.6 * title.height}, "Huewright strip", {0.62 * title.height, true, Align::Left, title.width});
    const Type warning{0.54 * caution.height, true, Align::Right, caution.width - caution.height};
    pen.text({caution.x + caution.width, caution.y + 0.6 * caution.height}, kOffPaint, warning);
    const double right = caution.x + caution.width - pen.widthOf(kOffPaint, warning);
    drawWarning(pen, {right - 0.8 * caution.height, caution.y - 0.02 * caution.height}, 0.68 * caution.height);
    return;
  }
  const double scale = std::max(0.74, lamp.height / kFullHeight);
  drawArrow(pen, {lamp.x + lamp.width / 2, lamp.y}, 9.4 * scale);
  pen.text({lamp.x + lamp.width / 2, lamp.y + 15 * scale}, "LAMP ON THIS SIDE", {4.6 * scale, true, Align::Centre, lamp.width});
  pen.text({lamp.x + lamp.width / 2, lamp.y + 19.4 * scale}, "panel and card lie across the light", {3 * scale, false, Align::Centre, lamp.width});

  MatRect rest = set(pen, title, "Huewright mat", {6.2 * scale, true});
  rest.y += 0.6 * scale;
  rest = set(pen, rest, layout.title + ", up to four panels and one card.", {3.1 * scale});
  set(pen, rest, "Cut the windows out, or lay things on them.", {3.1 * scale});

  const double sign = 6.2 * scale;
  drawWarning(pen, {caution.x + caution.width - 0.58 * sign - 0.3, caution.y + 0.3}, sign);
  MatRect beside = caution;
  beside.width -= 1.16 * sign + 3 * scale;
  rest = set(pen, beside, kOffPaint, {3.7 * scale, true, Align::Right});
  rest.y += 1.4 * scale;
  rest.width = caution.width;
  rest.y = std::max(rest.y, caution.y + sign + 1.7 * scale);
  set(pen, rest, "The blank paper shows how even the light is: keep it clean.", {3.1 * scale, false, Align::Right});
}

void drawPictograms(Pen& pen, const MatLayout& layout) {
  constexpr std::array kFlat{Pictogram::LampAt45, Pictogram::CameraSquareOn, Pictogram::NoFlash, Pictogram::OnePlane, Pictogram::DryToTouch};
  constexpr std::array kBent{Pictogram::BendRound, Pictogram::LampAt45, Pictogram::CameraSquareOn, Pictogram::NoFlash, Pictogram::DryToTouch};
  const MatRect& area = layout.areas.pictograms;
  const double column = area.width / kFlat.size(), words = std::clamp(0.13 * area.height, 2.5, 3.4);
  const double side = area.height - 1.8 * words;
  double left = area.x;
  for (const Pictogram pictogram : layout.aperture ? kBent : kFlat) {
    draw(pen, pictogram, {left + (column - side) / 2, area.y}, side);
    pen.text({left + column / 2, area.y + area.height - 0.3 * words}, caption(pictogram), {words, false, Align::Centre, column - 2});
    left += column;
  }
}

void drawNotes(Pen& pen, const MatLayout& layout) {
  const MatRect& area = layout.areas.notes;
  const std::array<std::string_view, 2> flat{"Light from one side at about 45°, camera square on, no flash, no second lamp.",
                                             "Panel and card in one plane, side by side across the light, the clear dry to the touch."};
  const std::array<std::string_view, 2> bent{"Cut the strip and its window out, lay it along the tube or edge, bend it round, and hold its ends with tape.",
                                             "Light from the arrows’ side at about 45°, camera square on, no flash, the clear dry to the touch."};
  Type type{0.4 * area.height, false, Align::Centre};
  for (const std::string_view line : layout.aperture ? bent : flat) type.size *= std::min(1.0, area.width / pen.widthOf(line, type));
  double base = area.y + 0.4 * area.height;
  for (const std::string_view line : layout.aperture ? bent : flat) {
    pen.text({area.x + area.width / 2, base}, line, type);
    base += 0.52 * area.height;
  }
}

void drawRuler(Pen& pen, const MatRuler& ruler) {
  constexpr double kThick = 0.3;
  pen.box(ruler.x, ruler.y, ruler.length, kThick);
  for (int mm = 0; mm <= static_cast<int>(ruler.length); mm += 10) {
    const bool end = mm == 0 || mm == static_cast<int>(ruler.length);
    // The ends lie inside, so that the whole is as long as it says.
    const double thick = 0.2, x = ruler.x + mm - (mm == 0 ? 0 : end ? thick : thick / 2);
    pen.box(x, ruler.y - (end ? 1.2 : 0), thick, (end ? 1.2 : 0) + (end ? 2.4 : 1.3));
  }
  pen.text({ruler.x + ruler.length / 2, ruler.y - 1.5}, "Print at 100 %: this line is 100 mm long.", {3.3, true, Align::Centre, ruler.length - 4});
}

/// Scissors with their blades open to the right, 5 mm long, the middle of their handles at that point.
void drawScissors(Pen& pen, Point at) {
  for (const double side : {-1.0, 1.0}) {
    pen.circle({at.x + 0.9, at.y + side * 1.1}, 0.75, 0.25);
    const std::array blade{Point{at.x + 1.55, at.y + side * 0.75}, Point{at.x + 5.4, at.y - side * 1.25}};
    pen.line(blade, 0.3);
  }
}

void drawCutLine(Pen& pen, const MatLayout& layout) {
  if (!layout.isCutOut()) return;
  const double w = layout.width, h = layout.height;
  pen.line(std::array{Point{0, 0}, Point{w, 0}, Point{w, h}, Point{0, h}, Point{0, 0}}, 0.2, kFaint, 1.6);
  drawScissors(pen, {0, h + 4.6});
  pen.text({7.5, h + 5.6}, "Cut along the dashed line.", {3});
}

void drawMat(Pen& pen, const MatLayout& layout) {
  pen.push({layout.left, layout.top});
  drawCutLine(pen, layout);
  drawWindows(pen, layout);
  for (const MatMarker& marker : layout.markers) drawMarker(pen, marker);
  drawHead(pen, layout);
  drawPictograms(pen, layout);
  drawNotes(pen, layout);
  drawRuler(pen, layout.ruler);
  pen.pop();
}

}  // namespace

Result<std::string> matPdf(const MatLayout& layout) {
  Pen pen = Pen::pdf(layout.page_width, layout.page_height, "Huewright mat, " + layout.title);
  drawMat(pen, layout);
  return pen.pdfBytes();
}

Result<DrawnPicture> matPicture(const MatLayout& layout, double dpi) {
  if (!(dpi >= 20 && dpi <= 1200)) return fail(Code::Internal, "dots an inch out of range");
  Pen pen = Pen::picture(layout.page_width, layout.page_height, dpi);
  drawMat(pen, layout);
  return pen.drawn();
}

std::vector<Quad> matTypeBoxes(const MatLayout& layout) {
  Pen pen = Pen::picture(layout.page_width, layout.page_height, 72);
  drawMat(pen, layout);
  std::vector<Quad> boxes = pen.typeBoxes();
  for (Quad& box : boxes)
    for (Point& corner : box.corners) corner = {corner.x - layout.left, corner.y - layout.top};
  return boxes;
}

}  // namespace huewright
