#include "paper/pictogram.hpp"

#include <array>

namespace huewright {
namespace {

// All are drawn in a square of 16 units, seen from the side, with the bench at the bottom.
constexpr double kUnits = 16;
constexpr double kPictogramLine = 0.5;
constexpr double kBench = 14.2;

template <class... Points>
void stroke(Pen& pen, double width, Points... points) {
  pen.line(std::array{points...}, width);
}

void bench(Pen& pen) { stroke(pen, kPictogramLine, Point{0.6, kBench}, Point{15.4, kBench}); }

void panel(Pen& pen, double left, double right, double thick = 1) { pen.box(left, kBench - thick, right - left, thick); }

/// An arrow head with its tip at that point; (dx, dy) is the way it points, of length 1.
void head(Pen& pen, Point tip, double dx, double dy) {
  const double back = 1.7, wide = 0.85;
  const Point foot{tip.x - back * dx, tip.y - back * dy};
  pen.polygon(std::array{tip, Point{foot.x - wide * dy, foot.y + wide * dx}, Point{foot.x + wide * dy, foot.y - wide * dx}});
}

void camera(Pen& pen) {
  stroke(pen, kPictogramLine, Point{4, 1}, Point{12, 1}, Point{12, 4.6}, Point{4, 4.6}, Point{4, 1});
  pen.box(6.3, 4.6, 3.4, 1.5);
  pen.disc({10.6, 2.3}, 0.5);
}

void lampAt45(Pen& pen) {
  bench(pen);
  panel(pen, 9, 14.8);
  // The lamp: a shade turned by 45°, its opening towards the panel's middle, and the bulb in it.
  constexpr double kHalf = 0.70710678;
  const auto turned = [&](double along, double across) { return Point{1.3 + kHalf * (along - across), 2.6 + kHalf * (along + across)}; };
  pen.disc(turned(2.6, 0), 1.25);
  pen.disc(turned(2.6, 0), 0.75, 1);
  pen.polygon(std::array{turned(-0.9, -0.85), turned(-0.9, 0.85), turned(0.2, 1.1), turned(2.4, 2.6), turned(2.4, -2.6), turned(0.2, -1.1)});
  pen.line(std::array{turned(5.2, 0), turned(12, 0)}, kPictogramLine);
  head(pen, turned(13.4, 0), kHalf, kHalf);
  for (const double side : {-1.0, 1.0}) pen.line(std::array{turned(5, 1.7 * side), turned(7.2, 2.3 * side)}, kPictogramLine);
  // The angle between ray and panel.
  const Point middle{11.9, kBench - 1};
  pen.line(std::array{middle, Point{4.6, middle.y}}, 0.3, 0, 0.7);
  pen.arc(middle, 6, 180, 225, 0.35);
  pen.text({5.2, 12.3}, "45°", {2.3, true, Align::Right});
}

void cameraSquareOn(Pen& pen) {
  bench(pen);
  panel(pen, 3.4, 12.6);
  camera(pen);
  pen.line(std::array{Point{8, 6.9}, Point{8, 13}}, 0.35, 0, 0.8);
  stroke(pen, 0.35, Point{8, 11.3}, Point{9.9, 11.3}, Point{9.9, 13});
}

void noFlash(Pen& pen) {
  pen.polygon(std::array{Point{9.8, 2.6}, Point{4.1, 9.2}, Point{7.2, 9.2}, Point{6.2, 13.4}, Point{11.9, 6.8}, Point{8.8, 6.8}});
  pen.circle({8, 8}, 6.9, 0.8);
  pen.line(std::array{Point{3.2, 3.2}, Point{12.8, 12.8}}, 1.7, 1);
  stroke(pen, 0.8, Point{3.12, 3.12}, Point{12.88, 12.88});
}

void onePlane(Pen& pen) {
  bench(pen);
  // A thin panel on a support beside a thick card: their tops are level.
  stroke(pen, 0.35, Point{2.6, kBench}, Point{2.6, 11.8}, Point{6.2, 11.8}, Point{6.2, kBench});
  pen.box(1.6, 10.8, 5.6, 1);
  pen.box(8.8, 10.8, 5.6, kBench - 10.8);
  pen.line(std::array{Point{0.4, 10.1}, Point{15.6, 10.1}}, 0.35, 0, 0.8);
  for (const double x : {4.4, 11.6}) {
    stroke(pen, kPictogramLine, Point{x, 4.2}, Point{x, 7.8});
    head(pen, {x, 9.4}, 0, 1);
  }
}

void dryToTouch(Pen& pen) {
  bench(pen);
  panel(pen, 1.6, 14.4);
  // A finger from the upper right, its tip on the panel.
  constexpr double kHalf = 0.70710678;
  const Point tip{7.7, 11.3};
  const auto along = [&](double way, double side) { return Point{tip.x + kHalf * (way + side), tip.y - kHalf * (way - side)}; };
  pen.arc(tip, 1.7, 45, 225, kPictogramLine);
  pen.line(std::array{along(0, 1.7), along(8.4, 1.7), along(8.4, -1.7), along(0, -1.7)}, kPictogramLine);
  pen.line(std::array{along(5.2, 1.2), along(5.2, -0.4)}, 0.35);
  pen.line(std::array{along(0.3, -0.8), along(2.1, -0.8)}, 0.35);
  stroke(pen, 1, Point{1.4, 5}, Point{3.2, 7}, Point{6.4, 2.6});
}

void bendRound(Pen& pen) {
  // A tube from the side, and the strip that lies along it with its window.
  stroke(pen, kPictogramLine, Point{2, 4}, Point{13.9, 4});
  stroke(pen, kPictogramLine, Point{2, 12}, Point{13.9, 12});
  pen.arc({6, 8}, 5.66, 135, 225, kPictogramLine);  // two bows for the open end
  pen.arc({-2, 8}, 5.66, -45, 45, kPictogramLine);
  pen.arc({9.9, 8}, 5.66, -45, 45, kPictogramLine);
  pen.polygon(std::array{Point{4.6, 4}, Point{13, 4}, Point{13, 12}, Point{4.6, 12}}, 1);
  stroke(pen, kPictogramLine, Point{4.6, 4}, Point{13, 4}, Point{13, 12}, Point{4.6, 12}, Point{4.6, 4});
  pen.box(7.2, 7.1, 3.2, 1.8, 0.6);
  for (const double x : {5.4, 10.9}) pen.box(x, 7.3, 1.3, 1.3);
}

}  // namespace

void draw(Pen& pen, Pictogram pictogram, Point corner, double side) {
  pen.push(corner, side / kUnits);
  switch (pictogram) {
    case Pictogram::LampAt45: lampAt45(pen); break;
    case Pictogram::CameraSquareOn: cameraSquareOn(pen); break;
    case Pictogram::NoFlash: noFlash(pen); break;
    case Pictogram::OnePlane: onePlane(pen); break;
    case Pictogram::DryToTouch: dryToTouch(pen); break;
    case Pictogram::BendRound: bendRound(pen); break;
  }
  pen.pop();
}

std::string_view caption(Pictogram pictogram) {
  switch (pictogram) {
    case Pictogram::LampAt45: return "one lamp at about 45°";
    case Pictogram::CameraSquareOn: return "camera square on";
    case Pictogram::NoFlash: return "no flash";
    case Pictogram::OnePlane: return "all in one plane";
    case Pictogram::DryToTouch: return "clear dry to the touch";
    case Pictogram::BendRound: return "bent round the part";
  }
  return {};
}

void drawWarning(Pen& pen, Point corner, double height) {
  const double half = 0.58 * height;
  pen.line(std::array{corner, Point{corner.x + half, corner.y + height}, Point{corner.x - half, corner.y + height}, corner}, 0.11 * height);
  pen.line(std::array{Point{corner.x, corner.y + 0.42 * height}, Point{corner.x, corner.y + 0.66 * height}}, 0.11 * height);
  pen.disc({corner.x, corner.y + 0.84 * height}, 0.07 * height);
}

}  // namespace huewright
