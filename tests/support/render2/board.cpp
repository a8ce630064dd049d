#include "render2/board.hpp"

#include <algorithm>
#include <cmath>

namespace huewright::render2 {
namespace {

constexpr int kColumns = 6, kRows = 4;
constexpr double kRim = 0.14, kHalfPatch = 0.435;   // distances between patches' centres

constexpr double kAcross = kColumns + 2 * kRim, kDown = kRows + 2 * kRim;

}  // namespace

double boardHeight(double width) { return width * kDown / kAcross; }

Board::Board(const Place& place, const Eyes& eyes, Random random) : rectangle_(place), pitch_(place.width / kAcross), frame_(even(0.032), eyes) {
  for (const Spectrum& patch : chartPatches()) {
    const double gain = 1 + 0.006 * random.normal(), slope = 0.004 * random.normal();
    patches_.emplace_back(patch * spectrumOf([&](double nm) { return gain * (1 + slope * (nm - 560) / 160); }), eyes);
  }
}

Vec3 Board::raw(Point p, double px_per_cm, double lamp, double room) const {
  const Point in = rectangle_.inside(p);
  const double x = (in.x + 0.5) * kAcross - kRim, y = (in.y + 0.5) * kDown - kRim;   // patches' centres at 0.5, 1.5 …
  const int column = std::clamp(static_cast<int>(std::floor(x)), 0, kColumns - 1), row = std::clamp(static_cast<int>(std::floor(y)), 0, kRows - 1);
  const double depth = kHalfPatch - std::max(std::abs(x - column - 0.5), std::abs(y - row - 0.5));
  const double cover = std::clamp(depth * pitch_ * px_per_cm + 0.5, 0.0, 1.0);
  return cover * patches_[static_cast<std::size_t>(row * kColumns + column)].raw(1, 1, lamp, room) + (1 - cover) * frame_.raw(1, 1, lamp, room);
}

Quad Board::patchCorners(const View& view) const {
  const double u = 0.5 - (kRim + 0.5 - kHalfPatch) / kAcross, v = 0.5 - (kRim + 0.5 - kHalfPatch) / kDown;
  return {{view.toPicture(rectangle_.outward(-u, -v)), view.toPicture(rectangle_.outward(u, -v)), view.toPicture(rectangle_.outward(u, v)),
           view.toPicture(rectangle_.outward(-u, v))}};
}

}  // namespace huewright::render2
