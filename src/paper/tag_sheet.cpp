#include "paper/tag_sheet.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "paper/pictogram.hpp"
#include "scene/tag_cells.hpp"

namespace huewright {
namespace {

constexpr double kTagEdge = 12;        // mm from the paper's edge, which printers leave blank
constexpr double kTagHead = 46;        // mm from the paper's top to the first label
constexpr double kTagFaint = 0.55;     // grey of the lines to cut along

/// One label: the pattern, and words below it, so that labels lie side by side as panels do. All mm.
struct TagLabel {
  double side, quiet, words, width, height;
};

TagLabel tagLabel(double side) {
  const double quiet = std::max(2.5, 0.1 * side);  // white paper round the frame: over two cells
  const double words = 0.6 * side;
  return {side, quiet, words, side + 2 * quiet, side + words + 2 * quiet};
}

std::size_t columnsOf(const TagPaper& paper, const TagLabel& label) { return static_cast<std::size_t>((paper.width - 2 * kTagEdge) / label.width); }
std::size_t rowsOf(const TagPaper& paper, const TagLabel& label) { return static_cast<std::size_t>((paper.height - kTagHead - kTagEdge) / label.height); }

Point labelCorner(const TagPaper& paper, const TagLabel& label, std::size_t index) {
  const std::size_t columns = columnsOf(paper, label);
  return {kTagEdge + static_cast<double>(index % columns) * label.width, kTagHead + static_cast<double>(index / columns) * label.height};
}

void drawPattern(Pen& pen, const TagCells& cells, Point corner, double side) {
  const auto all = withFrames(cells);
  const double cell = side / kTagAcross;
  pen.box(corner.x, corner.y, side, side);
  for (std::size_t y = 0; y < kTagAcross; ++y)
    for (std::size_t from = 0; from < kTagAcross;) {
      std::size_t to = from;  // a run of white cells is one box, so that no seam is left between them
      while (to < kTagAcross && !all[y][to]) ++to;
      if (to > from) pen.box(corner.x + static_cast<double>(from) * cell, corner.y + static_cast<double>(y) * cell, static_cast<double>(to - from) * cell, cell, 1);
      from = std::max(to, from + 1);
    }
}

/// at: the middle of the pattern's lower edge.
void drawTagWords(Pen& pen, const TagText& tag, Point at, const TagLabel& label) {
  const double unit = label.side / 28;
  pen.text({at.x, at.y + label.quiet + 3.9 * unit}, tag.name, {5.2 * unit, true, Align::Centre, label.side});
  double base = at.y + label.quiet + 9.3 * unit;
  if (tag.parts) {
    TagText alone = tag;
    alone.coats.reset();
    alone.carrier.reset();
    pen.text({at.x, base}, "mix " + tagFacts(alone), {4.4 * unit, false, Align::Centre, label.side});
    base += 4.8 * unit;
  }
  TagText rest = tag;
  rest.parts.reset();
  if (const std::string facts = tagFacts(rest); !facts.empty()) pen.text({at.x, base}, facts, {3.4 * unit, false, Align::Centre, label.side});
}

void drawCutLines(Pen& pen, const TagPaper& paper, const TagLabel& label, std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) {
    const Point a = labelCorner(paper, label, i);
    const double right = a.x + label.width, bottom = a.y + label.height;
    const bool first_row = i < columnsOf(paper, label), first_column = i % columnsOf(paper, label) == 0;
    // Each line once: dashes of two labels would not fall together.
    if (first_row) pen.line(std::array{a, Point{right, a.y}}, 0.2, kTagFaint, 1.6);
    if (first_column) pen.line(std::array{a, Point{a.x, bottom}}, 0.2, kTagFaint, 1.6);
    pen.line(std::array{Point{right, a.y}, Point{right, bottom}}, 0.2, kTagFaint, 1.6);
    pen.line(std::array{Point{a.x, bottom}, Point{right, bottom}}, 0.2, kTagFaint, 1.6);
  }
}

/// Lines of words from the top of a box; gives back where the next may begin.
double setTagLines(Pen& pen, Point at, double width, std::string_view text, const Type& type) {
  double base = at.y + type.size;
  for (const std::string& line : pen.wrapped(text, type, width)) {
    pen.text({at.x, base}, line, type);
    base += 1.35 * type.size;
  }
  return base - type.size + 0.35 * type.size;
}

void drawTagHead(Pen& pen, const TagPaper& paper) {
  const double left = kTagEdge, width = paper.width - 2 * kTagEdge, gap = 8, half = 0.46 * (width - gap);
  pen.text({left, 17.5}, "Huewright tags", {7, true});
  double y = setTagLines(pen, {left, 20.5}, half, "Cut along the dashed lines. Lay each label flat by its panel, nearer to it than to any other.", {3.1});
  setTagLines(pen, {left, y}, half, "The whole black frame and the white round it must show. Matt paper, nothing glossy over it.", {3.1});

  const double right = left + half + gap, rest = width - half - gap, sign = 7;
  pen.box(right - gap / 2 - 0.1, 12, 0.2, kTagHead - 16, 0.6);
  drawWarning(pen, {right + 0.58 * sign, 12}, sign);
  y = setTagLines(pen, {right + 1.16 * sign + 2.5, 12.2}, rest - 1.16 * sign - 2.5, "Ordinary electronics, phones and cameras included, are ignition sources near solvent vapour.", {3.3, true});
  setTagLines(pen, {right, y + 0.9}, rest, "Photograph outside the spray area, after venting, when the clear is dry to the touch. Follow local codes. Keep the labels off uncured paint.", {3.1});
}

Result<void> drawTagPage(Pen& pen, std::span<const TagText> tags, const TagPaper& paper, double side) {
  if (tags.empty() || tags.size() > tagsOnPage(paper, side)) return fail(Code::Internal, "tags that do not fit on a page");
  const TagLabel label = tagLabel(side);
  drawTagHead(pen, paper);
  drawCutLines(pen, paper, label, tags.size());
  for (std::size_t i = 0; i < tags.size(); ++i) {
    const auto cells = tagCells(tags[i]);
    if (!cells) return std::unexpected(cells.error());
    const Point corner = labelCorner(paper, label, i), pattern{corner.x + label.quiet, corner.y + label.quiet};
    drawPattern(pen, *cells, pattern, side);
    drawTagWords(pen, tags[i], {pattern.x + side / 2, pattern.y + side}, label);
  }
  return {};
}

bool isTagSide(double side) { return side >= kSmallestTagSide && side <= kLargestTagSide; }

}  // namespace

std::size_t tagsOnPage(const TagPaper& paper, double side) {
  if (!isTagSide(side)) return 0;
  const TagLabel label = tagLabel(side);
  return columnsOf(paper, label) * rowsOf(paper, label);
}

Quad tagPlace(const TagPaper& paper, double side, std::size_t index) {
  const TagLabel label = tagLabel(side);
  const Point corner = labelCorner(paper, label, index);
  const double x = corner.x + label.quiet, y = corner.y + label.quiet;
  return {{{{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}}}};
}

Result<std::string> tagPdf(std::span<const TagText> tags, const TagPaper& paper, double side) {
  Pen pen = Pen::pdf(paper.width, paper.height, "Huewright tags");
  if (const auto drawn = drawTagPage(pen, tags, paper, side); !drawn) return std::unexpected(drawn.error());
  return pen.pdfBytes();
}

Result<DrawnPicture> tagPicture(std::span<const TagText> tags, const TagPaper& paper, double side, double dpi) {
  if (!(dpi >= 20 && dpi <= 1200)) return fail(Code::Internal, "dots an inch out of range");
  Pen pen = Pen::picture(paper.width, paper.height, dpi);
  if (const auto drawn = drawTagPage(pen, tags, paper, side); !drawn) return std::unexpected(drawn.error());
  return pen.drawn();
}

}  // namespace huewright
