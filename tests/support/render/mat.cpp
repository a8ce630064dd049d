#include "render/mat.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "render/paint.hpp"

namespace huewright::render {

Spectrum paperBody(const PaperSpec& paper) {
  const Spectrum shape = step(394, 9) * (flat(1) + 0.010 * step(560, 60) + 0.10 * paper.brightener * bump(443, 21));
  return (paper.y / xyzUnderD50(shape).Y) * shape;
}

Spectrum inkBody(double y) { return grey(y, 0.02); }

Point pageSize(const MatSpec& mat) {
  const MatLayout& l = mat.layout;
  const bool cut = l.isCutOut();
  return {mat.page_width > 0 ? mat.page_width : cut ? l.width : l.page_width, mat.page_height > 0 ? mat.page_height : cut ? l.height : l.page_height};
}

double pxPerMm(const MatSpec& mat, Size picture) {
  if (mat.px_per_mm > 0) return mat.px_per_mm;
  constexpr double kFill = 0.88;
  const Point page = pageSize(mat);
  const double angle = mat.turn_deg * std::numbers::pi / 180, c = std::abs(std::cos(angle)), s = std::abs(std::sin(angle));
  return kFill * std::min(picture.width / (c * page.x + s * page.y), picture.height / (s * page.x + c * page.y));
}

Mat3 sheetToPlane(const MatSpec& mat, Size picture) {
  const double px = pxPerMm(mat, picture), angle = mat.turn_deg * std::numbers::pi / 180, c = std::cos(angle), s = std::sin(angle);
  const Point centre = mat.centre.value_or(Point{0.5 * picture.width, 0.5 * picture.height});
  const Mat3 from_middle{{{{1, 0, -0.5 * mat.layout.width}, {0, 1, -0.5 * mat.layout.height}, {0, 0, 1}}}};
  const Mat3 turned{{{{c, -s, centre.x}, {s, c, centre.y}, {0, 0, 1}}}};
  return turned * Mat3::diagonal({px * mat.print_scale_x, px * mat.print_scale_y, 1}) * from_middle;
}

std::optional<MatRect> windowOf(const MatLayout& layout, const Slot& slot) {
  const auto same = [&](const MatWindow& w) { return w.kind == slot.kind && w.index == slot.index; };
  const auto at = std::ranges::find_if(layout.windows, same);
  if (at != layout.windows.end()) return at->place;
  const bool panels = std::ranges::any_of(layout.windows, [](const MatWindow& w) { return w.kind == MatWindowKind::Panel; });
  if (slot.kind == MatWindowKind::Panel && slot.index == 0 && !panels) return layout.aperture;
  return {};
}

}  // namespace huewright::render
