#include "scene/mat_paper.hpp"

#include <algorithm>
#include <cmath>

#include "scene/homography.hpp"

namespace huewright {
namespace {

// Millimetres; common sense, no source.
constexpr double kOffRim = 3;        // cut lines, a curled edge, the shadow on it
constexpr double kOffInk = 2.5;      // blur, and ink that stray light lightens
constexpr double kOffThings = 3.5;   // things in windows throw soft shadows
constexpr double kOffThingsInGap = 3;
constexpr double kNarrowest = 2;   // of a spot in a gap between windows
constexpr double kPlacesStep = 1;  // of the places that are tried

struct Spacing {
  double side = 0, apart = 0;        // of a spot; between spots' middles
};
constexpr double kSparser = 1.6;     // times as far apart inside empty windows, of which there is much
Spacing spacingOf(const MatLayout& layout) { return layout.isCutOut() ? Spacing{3.5, 7.5} : Spacing{5, 11}; }

MatRect larger(const MatRect& rect, double by) { return {rect.x - by, rect.y - by, rect.width + 2 * by, rect.height + 2 * by}; }

/// Where a window's or the aperture's name may stand, on the safe side: wide letters, a second line below.
MatRect labelBox(const MatLabels& labels, const MatRect& place, bool below, std::size_t letters) {
  const double width = 0.75 * labels.size * static_cast<double>(letters);
  const double x = place.x + (place.width - width) / 2;
  if (below) return {x, place.y + place.height + labels.gap - 0.1 * labels.size, width, 2.2 * labels.size};
  return {x, place.y - labels.gap - labels.size, width, 1.3 * labels.size};
}

/// All that is printed, but the dots.
std::vector<MatRect> inkOf(const MatLayout& layout) {
  std::vector<MatRect> ink{layout.areas.title, layout.areas.lamp, layout.areas.caution, layout.areas.pictograms, layout.areas.notes};
  // The line with its ticks, and the words above it.
  ink.push_back({layout.ruler.x - 0.5, layout.ruler.y - 5.5, layout.ruler.length + 1, 8.5});
  for (const MatMarker& marker : layout.markers) ink.push_back(placeOf(marker));
  const auto addTicks = [&](const MatRect& w) {
    const MatTicks& t = layout.ticks;
    for (const double x : {w.x, w.x + w.width})
      for (const double y : {w.y - t.gap - t.length, w.y + w.height + t.gap}) ink.push_back({x - t.width / 2, y, t.width, t.length});
    for (const double y : {w.y, w.y + w.height})
      for (const double x : {w.x - t.gap - t.length, w.x + w.width + t.gap}) ink.push_back({x, y - t.width / 2, t.length, t.width});
  };
  for (const MatWindow& window : layout.windows) {
    addTicks(window.place);
    constexpr std::size_t kLettersOfBlack = 12;  // its second line is longer than its name, though in smaller letters
    const std::size_t letters = window.kind == MatWindowKind::Black ? kLettersOfBlack : matWindowName(window).size();
    ink.push_back(labelBox(layout.labels, window.place, window.label_below, letters));
  }
  if (layout.aperture) {
    addTicks(*layout.aperture);
    ink.push_back(labelBox(layout.labels, *layout.aperture, false, std::string_view("cut this window out").size()));
  }
  return ink;
}

struct Sheet {
  explicit Sheet(const MatLayout& layout) : usable(larger({0, 0, layout.width, layout.height}, -kOffRim)), ink(inkOf(layout)) {
    for (std::size_t i = 0; i < layout.dots.centres.size(); ++i) dots.push_back(placeOfDot(layout.dots, i));
  }
  MatRect usable;
  std::vector<MatRect> ink, dots, things;

  bool blank(const MatRect& spot, double off_ink, double off_dots, double off_things) const {
    const bool on_sheet = spot.x >= usable.x && spot.y >= usable.y && spot.x + spot.width <= usable.x + usable.width &&
                          spot.y + spot.height <= usable.y + usable.height;
    const auto clear = [&](const std::vector<MatRect>& of, double apart) {
      return std::ranges::none_of(of, [&](const MatRect& one) { return closerThan(one, spot, apart); });
    };
    return on_sheet && clear(ink, off_ink) && clear(dots, off_dots) && clear(things, off_things);
  }
};

Point middleOfRect(const MatRect& rect) { return {rect.x + rect.width / 2, rect.y + rect.height / 2}; }

/// Upright spots in the middle of the gap between two windows that lie side by side.
std::vector<MatRect> gapSpots(const MatLayout& layout, const Spacing& spacing) {
  std::vector<MatRect> places, spots;
  for (const MatWindow& window : layout.windows) places.push_back(window.place);
  if (layout.aperture) places.push_back(*layout.aperture);
  std::ranges::sort(places, {}, &MatRect::x);
  for (const MatRect& left : places)
    for (const MatRect& right : places) {
      const double gap = right.x - left.x - left.width;
      if (!(gap > 0 && gap <= 1.5 * layout.clear)) continue;
      const double top = std::max(left.y, right.y), bottom = std::min(left.y + left.height, right.y + right.height);
      const double width = std::clamp(gap - 2 * kOffThings, kNarrowest, spacing.side);
      if (gap < width + 2 * kOffThingsInGap) continue;
      const int count = static_cast<int>((bottom - top) / spacing.apart);
      for (int i = 0; i < count; ++i)
        spots.push_back({right.x - (gap + width) / 2, top + (bottom - top) * (i + 0.5) / count - spacing.side / 2, width, spacing.side});
    }
  return spots;
}

bool insidePicture(const FoundMat& mat, const MatRect& rect, Size picture) {
  const Quad quad = mat.place(rect);
  return std::ranges::all_of(quad.corners, [&](Point p) { return p.x >= 0 && p.y >= 0 && p.x <= picture.width && p.y <= picture.height; }) &&
         areaScale(mat.homography, middleOfRect(rect)) > 0;
}

}  // namespace

std::vector<Quad> blankPaper(const FoundMat& mat, std::span<const WindowState> windows, Size picture) {
  const MatLayout& layout = mat.layout;
  Sheet sheet(layout);
  for (std::size_t i = 0; i < layout.windows.size(); ++i)
    if (i >= windows.size() || windows[i] != WindowState::Empty) sheet.things.push_back(layout.windows[i].place);
  if (layout.aperture) sheet.things.push_back(*layout.aperture);

  const Spacing spacing = spacingOf(layout);
  const auto inWindow = [&](const MatRect& spot) {
    return std::ranges::any_of(layout.windows, [&](const MatWindow& window) { return closerThan(window.place, spot, 0); });
  };
  std::vector<MatRect> spots;
  const auto add = [&](const MatRect& spot, double off_things) {
    const Point at = middleOfRect(spot);
    const bool inside = inWindow(spot);
    const bool apart = std::ranges::none_of(spots, [&](const MatRect& other) {
      const Point to = middleOfRect(other);
      return std::hypot(at.x - to.x, at.y - to.y) < (inside && inWindow(other) ? kSparser : 1) * spacing.apart;
    });
    if (apart && sheet.blank(spot, kOffInk, kOffInk, off_things) && insidePicture(mat, spot, picture)) spots.push_back(spot);
  };
  // Next to panel and card first, for there the light matters; the rest fills up.
  for (const MatRect& spot : gapSpots(layout, spacing)) add(spot, kOffThingsInGap);
  for (double y = kOffRim; y + spacing.side <= layout.height; y += kPlacesStep)
    for (double x = kOffRim; x + spacing.side <= layout.width; x += kPlacesStep) add({x, y, spacing.side, spacing.side}, kOffThings);

  std::vector<Quad> quads;
  for (const MatRect& spot : spots) quads.push_back(mat.place(spot));
  return quads;
}

std::vector<DotPlace> dotPlaces(const FoundMat& mat, Size picture) {
  constexpr double kInner = 0.55, kPaperSide = 0.7, kPaperAway = 1.25;  // of the diameter: sides, and from middle to middle
  constexpr double kOffInkNearDot = 0.6, kOffDot = 0.7, kOffWindow = 2;   // millimetres
  const MatLayout& layout = mat.layout;
  Sheet sheet(layout);
  for (const MatWindow& window : layout.windows) sheet.things.push_back(window.place);
  if (layout.aperture) sheet.things.push_back(*layout.aperture);
  const auto square = [](Point at, double side) { return MatRect{at.x - side / 2, at.y - side / 2, side, side}; };
  const double d = layout.dots.diameter;
  std::vector<DotPlace> dots;
  for (const Point& at : layout.dots.centres) {
    const MatRect inner = square(at, kInner * d);
    if (!insidePicture(mat, inner, picture)) continue;
    DotPlace dot{mat.place(inner), {}};
    for (const Point& to : {Point{-1, 0}, Point{1, 0}, Point{0, -1}, Point{0, 1}}) {
      const MatRect paper = square({at.x + kPaperAway * d * to.x, at.y + kPaperAway * d * to.y}, kPaperSide * d);
      if (sheet.blank(paper, kOffInkNearDot, kOffDot, kOffWindow) && insidePicture(mat, paper, picture)) dot.paper.push_back(mat.place(paper));
    }
    if (dot.paper.size() >= 2) dots.push_back(std::move(dot));
  }
  return dots;
}

}  // namespace huewright
