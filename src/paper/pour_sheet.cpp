#include "paper/pour_sheet.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "paper/pictogram.hpp"
#include "paper/pour_cup.hpp"

namespace huewright {
namespace {

constexpr double kSheetMargin = 14;
constexpr double kSheetPlain = 3.4, kSheetStrong = 4.2;  // sizes of type, mm
constexpr double kSheetLead = 1.38;                 // line height over size
constexpr double kRuleGrey = 0.65;
constexpr double kCupColumn = 54;              // mm at the right, for the cup
constexpr std::size_t kMostCoatBoxes = 12;

struct SheetSize {
  double width, height;
};

SheetSize sheetSize(const PourSheet& sheet) { return sheet.paper == "letter" ? SheetSize{215.9, 279.4} : SheetSize{210, 297}; }

/// Sets words as a paragraph whose first base line lies a line below `top`; gives the place below it.
double sheetParagraph(Pen& pen, double x, double top, double width, std::string_view words, const Type& type) {
  for (const std::string& line : pen.wrapped(words, type, width)) {
    top += kSheetLead * type.size;
    Type fitting = type;
    fitting.widest = width;
    pen.text({x, top - 0.38 * type.size}, line, fitting);
  }
  return top;
}

void sheetRule(Pen& pen, double x, double y, double width, Ink ink = kRuleGrey, double thick = 0.25) { pen.box(x, y, width, thick, ink); }

double drawSheetHead(Pen& pen, const PourSheet& sheet, SheetSize size) {
  const double x = kSheetMargin, width = size.width - 2 * kSheetMargin;
  pen.text({x, 20.5}, sheet.title, {7.2, true, Align::Left, 0.55 * width});
  double field = x + width;
  for (const auto& [words, room] : {std::pair{"Batch", 26.0}, std::pair{"Date", 26.0}}) {
    sheetRule(pen, field - room, 20.9, room);
    pen.text({field - room - 1.5, 20.5}, words, {3, false, Align::Right});
    field -= room + 14;
  }
  constexpr std::size_t kMostLinesLarge = 2;
  const double mix = pen.wrapped(sheet.mix, {5, true}, width).size() > kMostLinesLarge ? kSheetPlain : 5;
  double y = sheetParagraph(pen, x, 23.5, width, sheet.mix, {mix, true});
  y += 0.6;
  for (const std::string& fact : sheet.facts) y = sheetParagraph(pen, x, y, width, fact, {kSheetPlain});
  return y + 3;
}

/// The table: a box to tick, the order, the name, what is added, what shows then.
double drawSheetTable(Pen& pen, const PourSheet& sheet, double x, double y, double width) {
  const bool weighed = std::ranges::any_of(sheet.lines, [](const PourSheetLine& line) { return !line.add_g.empty(); });
  const double until = x + width, off = until - 27, grams = off - 15, ml = weighed ? grams - 18 : off - 15, name = x + 13.5;
  const Type head{3, false, Align::Right, 0, 0.35};
  const double base = y + 4;
  pen.text({name, base}, "Pour in this order", {3, false, Align::Left, ml - 8 - name, 0.35});
  pen.text({ml, base}, "add", head);
  pen.text({off, base}, "within", head);
  Type last = head;
  last.widest = 25;
  pen.text({until, base}, sheet.until_head, last);
  y += 5.6;
  sheetRule(pen, x, y, width, 0.0, 0.35);
  const double row = std::clamp(92.0 / static_cast<double>(std::max<std::size_t>(1, sheet.lines.size())), 7.0, 11.0);
  int number = 0;
  for (const PourSheetLine& line : sheet.lines) {
    const double middle = y + row / 2 + 0.1, text = middle + 1.45;
    pen.line(std::array{Point{x + 0.5, middle - 2}, Point{x + 4.5, middle - 2}, Point{x + 4.5, middle + 2}, Point{x + 0.5, middle + 2}, Point{x + 0.5, middle - 2}}, 0.3);
    pen.text({x + 11, text}, std::to_string(++number), {kSheetStrong, true, Align::Right});
    pen.text({name, text}, line.name, {kSheetStrong, true, Align::Left, ml - 18 - name});
    pen.text({ml, text}, line.add_ml, {kSheetStrong, false, Align::Right, 17});
    if (!line.add_g.empty()) pen.text({grams, text}, line.add_g, {kSheetStrong, false, Align::Right, 17});
    pen.text({off, text}, line.off, {3, false, Align::Right, 14});
    pen.text({until, text}, line.until.empty() ? "–" : line.until, {kSheetStrong + 0.6, true, Align::Right, 25});
    y += row;
    sheetRule(pen, x, y, width);
  }
  return y;
}

/// A cup with straight walls, its layers and their labels, in a column of that width. Gives the place below.
double drawSheetCup(Pen& pen, const PourSheet& sheet, double x, double top, double width) {
  constexpr double kLabelType = 3, kPourLabelGap = 4.4, kHigh = 62, kWall = 0.5, kHeadroom = 8;
  const bool marked = std::ranges::any_of(sheet.layers, [](const PourSheetLayer& layer) { return !layer.mark.empty(); });
  const double left = x + (marked ? 11 : 2), cup = 20, floor = top + kHeadroom + kHigh;
  std::vector<double> marks;
  double below = 0;
  for (std::size_t i = 0; i < sheet.layers.size(); ++i) {
    const PourSheetLayer& layer = sheet.layers[i];
    const double to = layer.to * kHigh, shade = layer.in_cup ? 0.72 : i % 2 == 0 ? 0.93 : 0.84;
    pen.box(left, floor - to, cup, to - below, shade);
    marks.push_back(to);
    below = to;
  }
  const std::vector<double> places = labelPlaces(marks, kPourLabelGap);
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const double y = floor - marks[i], at = floor - places[i];
    sheetRule(pen, left, y - 0.15, cup, 0.0, 0.3);
    pen.line(std::array{Point{left + cup, y}, Point{left + cup + 2.5, at}, Point{left + cup + 4, at}}, 0.2, 0.45);
    pen.text({left + cup + 5, at + 1.05}, sheet.layers[i].label, {kLabelType, false, Align::Left, x + width - left - cup - 5});
    if (sheet.layers[i].mark.empty()) continue;
    pen.line(std::array{Point{left, y}, Point{left - 2.5, at}, Point{left - 4, at}}, 0.2, 0.45);
    pen.text({left - 5, at + 1.05}, sheet.layers[i].mark, {kLabelType, true, Align::Right, 8});
  }
  const double lip = 1.6;
  pen.line(std::array{Point{left - lip, top}, Point{left, top + 1}, Point{left, floor}, Point{left + cup, floor}, Point{left + cup, top + 1}, Point{left + cup + lip, top}}, kWall);
  return sheetParagraph(pen, x, floor + 2, width, sheet.cup_caption, {2.7, false, Align::Left, 0, 0.3});
}

double drawSheetNotes(Pen& pen, const PourSheet& sheet, double y, double size, double width) {
  for (const std::string& note : sheet.notes) {
    pen.disc({kSheetMargin + 1.1, y + 0.74 * size}, 0.55);
    y = sheetParagraph(pen, kSheetMargin + 4, y, width - 4, note, {size}) + 0.7;
  }
  return y;
}

double drawCoatBoxes(Pen& pen, const PourSheet& sheet, double y, double width) {
  const auto coats = std::min<std::size_t>(kMostCoatBoxes, static_cast<std::size_t>(std::max(0, sheet.coats)));
  constexpr std::size_t kAcross = 4;
  for (std::size_t i = 0; i < coats; ++i) {
    const double cell = width / kAcross, x = kSheetMargin + cell * static_cast<double>(i % kAcross), base = y + 5.5 + 7.5 * static_cast<double>(i / kAcross);
    pen.line(std::array{Point{x + 0.5, base - 3.2}, Point{x + 4, base - 3.2}, Point{x + 4, base + 0.3}, Point{x + 0.5, base + 0.3}, Point{x + 0.5, base - 3.2}}, 0.3);
    const std::string words = "Coat " + std::to_string(i + 1) + " at";
    const Type type{3};
    pen.text({x + 5.5, base}, words, type);
    const double from = x + 7 + pen.widthOf(words, type);
    sheetRule(pen, from, base + 0.4, x + cell - 3 - from);
  }
  return coats == 0 ? y : y + 3 + 7.5 * std::ceil(static_cast<double>(coats) / kAcross);
}

/// Lines to write on, where the page has room for them.
void drawOwnLines(Pen& pen, double y, double foot, double width) {
  constexpr double kApart = 8.5;
  if (y + 2 * kApart > foot) return;
  const std::string words = "What was really poured, and what came of it:";
  const Type type{3};
  pen.text({kSheetMargin, y + 5}, words, type);
  const double from = pen.widthOf(words, type) + 2;
  sheetRule(pen, kSheetMargin + from, y + 5.4, width - from);
  for (y += 5.4 + kApart; y < foot - 1; y += kApart) sheetRule(pen, kSheetMargin, y, width);
}

/// The cautions in a frame at the foot of the page; gives its upper edge.
double drawSheetCautions(Pen& pen, const PourSheet& sheet, SheetSize size) {
  const double x = kSheetMargin, width = size.width - 2 * kSheetMargin;
  constexpr double kType = 3.1, kSign = 9, kInside = 3;
  const double words = x + kInside + 1.3 * kSign + 3, room = x + width - kInside - words;
  double high = 2 * kInside - 0.8;
  for (const std::string& caution : sheet.cautions) high += kSheetLead * kType * static_cast<double>(pen.wrapped(caution, {kType}, room).size()) + 0.5;
  const double top = size.height - 12 - high, bottom = top + high;
  pen.line(std::array{Point{x, top}, Point{x + width, top}, Point{x + width, bottom}, Point{x, bottom}, Point{x, top}}, 0.5);
  drawWarning(pen, {x + kInside + 0.6 * kSign, top + (high - kSign) / 2}, kSign);
  double y = top + kInside - 0.6;
  for (const std::string& caution : sheet.cautions) y = sheetParagraph(pen, words, y, room, caution, {kType}) + 0.5;
  return top;
}

/// All but the cautions; gives the place below. In: type, of the notes; foot, where the cautions begin.
double drawSheetBody(Pen& pen, const PourSheet& sheet, SheetSize size, double type, double foot) {
  const double width = size.width - 2 * kSheetMargin, column = width - kCupColumn - 6;
  const double y = drawSheetHead(pen, sheet, size);
  const double table = drawSheetTable(pen, sheet, kSheetMargin, y, column);
  const double cup = drawSheetCup(pen, sheet, kSheetMargin + column + 6, y + 2, kCupColumn);
  const double notes = drawSheetNotes(pen, sheet, std::max(table, cup) + 4, type, width);
  const double end = drawCoatBoxes(pen, sheet, notes + 0.5, width);
  drawOwnLines(pen, end + 5, foot, width);
  return end;
}

void drawPourSheet(Pen& pen, const PourSheet& sheet) {
  constexpr double kSmallest = 2.7;
  const SheetSize size = sheetSize(sheet);
  const double foot = drawSheetCautions(pen, sheet, size) - 3;
  // What is too long for the page: first the notes are set smaller, then everything is.
  Pen scratch = Pen::picture(size.width, size.height, 20);
  double type = kSheetPlain, end = drawSheetBody(scratch, sheet, size, type, foot);
  for (; end > foot && type > kSmallest; end = drawSheetBody(scratch, sheet, size, type, foot)) type -= 0.1;
  const double scale = std::min(1.0, foot / end);
  pen.push({(1 - scale) * size.width / 2, 0}, scale);
  drawSheetBody(pen, sheet, size, type, foot);
  pen.pop();
}

}  // namespace

Result<std::string> pourSheetPdf(const PourSheet& sheet) {
  Pen pen = Pen::pdf(sheetSize(sheet).width, sheetSize(sheet).height, "Huewright pour sheet");
  drawPourSheet(pen, sheet);
  return pen.pdfBytes();
}

Result<DrawnPicture> pourSheetPicture(const PourSheet& sheet, double dpi) {
  if (!(dpi >= 20 && dpi <= 1200)) return fail(Code::Internal, "dots an inch out of range");
  Pen pen = Pen::picture(sheetSize(sheet).width, sheetSize(sheet).height, dpi);
  drawPourSheet(pen, sheet);
  return pen.drawn();
}

std::vector<Quad> pourSheetTypeBoxes(const PourSheet& sheet) {
  Pen pen = Pen::picture(sheetSize(sheet).width, sheetSize(sheet).height, 72);
  drawPourSheet(pen, sheet);
  return pen.typeBoxes();
}

}  // namespace huewright
