#include "paper/plot_symbols.hpp"

#include <array>

namespace huewright {
namespace {

void diamond(Pen& pen, Point at, double half, const Ink& ink) {
  pen.polygon(std::array{Point{at.x, at.y - half}, Point{at.x + half, at.y}, Point{at.x, at.y + half}, Point{at.x - half, at.y}}, ink);
}

void squareOrDisc(Pen& pen, Point at, double half, const Ink& ink, bool square) {
  if (square) pen.polygon(std::array{Point{at.x - half, at.y - half}, Point{at.x + half, at.y - half}, Point{at.x + half, at.y + half}, Point{at.x - half, at.y + half}}, ink);
  else pen.disc(at, half * 1.1, ink);  // as large to the eye
}

}  // namespace

void panelSymbol(Pen& pen, Point at, const Ink& ink, bool square, bool crossed) {
  squareOrDisc(pen, at, kPanelHalf + 0.6, 1, square);
  squareOrDisc(pen, at, kPanelHalf + 0.2, 0, square);
  squareOrDisc(pen, at, kPanelHalf - 0.15, ink, square);
  if (!crossed) return;
  constexpr double kArm = kPanelHalf + 1.2;
  for (const double side : {-1.0, 1.0}) {
    const std::array arm{Point{at.x - kArm, at.y - side * kArm}, Point{at.x + kArm, at.y + side * kArm}};
    pen.line(arm, 1.3, 1);
    pen.line(arm, 0.6);
  }
}

void nextSymbol(Pen& pen, Point at, const Ink& ink, double half) {
  diamond(pen, at, half + 0.9, 1);
  diamond(pen, at, half + 0.35, 0);
  diamond(pen, at, half - 0.55, ink);
}

void errorBar(Pen& pen, Point low, Point high, double cap) {
  for (const auto& [width, ink] : {std::pair{1.1, 1.0}, std::pair{0.4, 0.0}}) {
    pen.line(std::array{low, high}, width, ink);
    for (const Point& end : {low, high}) pen.line(std::array{Point{end.x - cap, end.y}, Point{end.x + cap, end.y}}, width, ink);
  }
}

}  // namespace huewright
