// Things into the mat's windows, and what can be done with a whole set-up: exchange, turn.
#include <algorithm>
#include <stdexcept>

#include "render/plane.hpp"

namespace huewright::render {
namespace {

// True when it has a place now.
bool layInto(Place& place, const SceneSpec& scene, const Slot& slot, double border_px) {
  if (place.width > 0) return true;
  const MatSpec& mat = *scene.mat;
  const auto window = windowOf(mat.layout, slot);
  if (!window) return false;
  const double px = pxPerMm(mat, scene.size), rim = isAperture(mat.layout, slot) ? 0 : 2 * (mat.gap_mm * px + border_px);
  const Vec3 middle = sheetToPlane(mat, scene.size) * Vec3{window->x + window->width / 2, window->y + window->height / 2, 1};
  const double w = window->width * px * mat.print_scale_x - rim, h = window->height * px * mat.print_scale_y - rim;
  if (w <= 0 || h <= 0) throw std::invalid_argument("nothing is left of a window after the gap round the thing in it");
  place = {middle[0] - w / 2, middle[1] - h / 2, w, h, mat.turn_deg};
  return true;
}

void layOnMat(SceneSpec& scene) {
  const MatSpec& mat = *scene.mat;
  const auto must = [](bool there) {
    if (!there) throw std::invalid_argument("the mat has no such window");
  };
  for (std::size_t i = 0; i < scene.panels.size(); ++i) must(layInto(scene.panels[i].place, scene, mat.panelSlot(i), 0));
  if (mat.card && scene.has_card) layInto(scene.card.place, scene, *mat.card, scene.card.border_px);
  for (std::size_t i = 0; i < scene.greys.size(); ++i) must(layInto(scene.greys[i].place, scene, mat.greySlot(i), 0));
  if (scene.black) must(layInto(scene.black->place, scene, mat.black, 0));
}

// Where something lies already, in the plane; with a mat its whole page.
std::vector<Quad> takenPlaces(const SceneSpec& scene) {
  std::vector<Quad> taken;
  const auto take = [&](const Place& place) {
    if (place.width > 0) taken.push_back(cornersOf(place));
  };
  if (scene.has_card) take(scene.card.place);
  for (const PanelSpec& p : scene.panels) take(p.place);
  for (const GreySpec& g : scene.greys) take(g.place);
  if (scene.black) take(scene.black->place);
  if (scene.chart) take(scene.chart->place);
  if (scene.mat) {
    const MatSpec& mat = *scene.mat;
    const Vec3 middle = sheetToPlane(mat, scene.size) * Vec3{mat.layout.width / 2, mat.layout.height / 2, 1};
    const double w = pageSize(mat).x * pxPerMm(mat, scene.size), h = pageSize(mat).y * pxPerMm(mat, scene.size);
    taken.push_back(cornersOf({middle[0] - w / 2, middle[1] - h / 2, w, h, mat.turn_deg}));
  }
  return taken;
}

// The largest free place in the picture, from 60 % down to 12 % of its width; of those the lowest, and of those the leftmost.
void placeChart(SceneSpec& scene) {
  ChartSpec& chart = *scene.chart;
  const double shape = boardShape(chart), w = scene.size.width, h = scene.size.height, clear = 0.02 * h;
  if (chart.place.width > 0) {
    chart.place.height = shape * chart.place.width;
    return;
  }
  const auto taken = takenPlaces(scene);
  const Perspective perspective(scene.shop.view, scene.size);
  const auto seen = [&](const Quad& plane) {
    return std::ranges::all_of(toPicture(perspective, plane).corners, [&](Point p) { return p.x > 0 && p.y > 0 && p.x < w && p.y < h; });
  };
  for (double wide = 0.6 * w; wide >= 0.12 * w; wide *= 0.95) {
    const double high = shape * wide;
    for (double y = h - 0.5 * high; y > 0; y -= clear)
      for (double x = 0; x < w; x += clear) {
        const Quad quad = cornersOf({x - clear, y - clear, wide + 2 * clear, high + 2 * clear, chart.place.turn_deg});
        if (!seen(quad) || std::ranges::any_of(taken, [&](const Quad& q) { return overlap(q, quad); })) continue;
        chart.place = {x, y, wide, high, chart.place.turn_deg};
        return;
      }
  }
  throw std::invalid_argument("no free place for the chart");
}

// The first free place from the lower right on, row by row.
void placeChip(SceneSpec& scene) {
  const auto taken = takenPlaces(scene);
  const double side = 0.09 * scene.size.height, clear = 0.02 * scene.size.height, edge = 0.06 * scene.size.height;
  for (double y = scene.size.height - edge - side; y > edge; y -= clear)
    for (double x = scene.size.width - edge - side; x > edge; x -= clear) {
      const Quad wide = cornersOf({x - clear, y - clear, side + 2 * clear, side + 2 * clear, 0});
      if (std::ranges::any_of(taken, [&](const Quad& q) { return overlap(q, wide); })) continue;
      scene.black->place = {x, y, side, side, 0};
      return;
    }
  throw std::invalid_argument("no free place for the black chip");
}

Point middleOf(const Place& p) { return {p.x + 0.5 * p.width, p.y + 0.5 * p.height}; }
void moveTo(Place& p, Point middle) {
  p.x = middle.x - 0.5 * p.width;
  p.y = middle.y - 0.5 * p.height;
}

}  // namespace

void lay(SceneSpec& scene) {
  if (scene.chart && scene.chart->place.width > 0) placeChart(scene);   // its height, which others must keep away from
  if (scene.mat) {
    layOnMat(scene);
  } else {
    arrange(scene);
    if (scene.black && scene.black->place.width <= 0) placeChip(scene);
  }
  if (scene.chart) placeChart(scene);
}

SceneSpec swapped(SceneSpec scene) {
  PanelSpec& panel = scene.panels.at(0);
  std::swap(panel.finish.glare, scene.card.finish.glare);
  if (scene.mat && scene.mat->card && windowOf(scene.mat->layout, *scene.mat->card) && panel.place.width <= 0 && scene.card.place.width <= 0) {
    MatSpec& mat = *scene.mat;
    const Slot panel_slot = mat.panelSlot(0);
    if (mat.panels.empty()) mat.panels.resize(1);
    mat.panels[0] = *mat.card;
    mat.card = panel_slot;
    return scene;
  }
  lay(scene);
  if (scene.card.place.width <= 0) throw std::invalid_argument("no card to exchange the panel with");
  const Point here = middleOf(panel.place), there = middleOf(scene.card.place);
  moveTo(panel.place, there);
  moveTo(scene.card.place, here);
  std::swap(panel.place.turn_deg, scene.card.place.turn_deg);
  return scene;
}

SceneSpec halfTurned(SceneSpec scene) {
  Point pivot{0.5 * scene.size.width, 0.5 * scene.size.height};
  if (scene.mat) {
    pivot = scene.mat->centre.value_or(pivot);
    if (scene.chart) placeChart(scene);
    scene.mat->turn_deg += 180;
  } else {
    lay(scene);
  }
  const auto turn = [&](Place& place) {
    if (place.width <= 0) return;   // lies in a window, and turns with it
    const Point m = middleOf(place);
    moveTo(place, {2 * pivot.x - m.x, 2 * pivot.y - m.y});
    place.turn_deg += 180;
  };
  const auto keepGlare = [](std::vector<Glare>& all) {
    for (Glare& g : all) {
      g.x = 1 - g.x;
      g.y = 1 - g.y;
    }
  };
  for (PanelSpec& p : scene.panels) {
    turn(p.place);
    keepGlare(p.finish.glare);
  }
  turn(scene.card.place);
  keepGlare(scene.card.finish.glare);
  for (GreySpec& g : scene.greys) turn(g.place);
  if (scene.black) {
    turn(scene.black->place);
    keepGlare(scene.black->glare);
  }
  if (scene.chart) {
    turn(scene.chart->place);
    keepGlare(scene.chart->glare);
  }
  return scene;
}

}  // namespace huewright::render
