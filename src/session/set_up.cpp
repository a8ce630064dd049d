#include "session/set_up.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "camera/steps.hpp"
#include "colour/delta_e.hpp"
#include "photo/device.hpp"
#include "session/mat_regions.hpp"

namespace huewright {
namespace {

/// What one region marks, laid at the middle of another and shrunk until it lies within that one: beyond its edge the bench may show.
Quad exchanged(const Quad& shape, const Quad& place) {
  const Point from = centre(shape), to = centre(place);
  Quad laid;
  for (std::size_t i = 0; i < 4; ++i) laid.corners[i] = {to.x + shape.corners[i].x - from.x, to.y + shape.corners[i].y - from.y};
  for (int i = 0; i < 100 && !std::ranges::all_of(laid.corners, [&](Point p) { return contains(place, p); }); ++i) laid = inset(laid, 0.05);
  return laid;
}

double turnBetween(double a, double b) {
  const double turn = std::remainder(a - b, 360.0);
  return std::abs(turn);
}

}  // namespace

bool usesMat(const JudgeRequest& r) { return r.regions.panels.empty() && !r.regions.card && r.regions.greys.empty() && !r.regions.black; }

Result<SetUp> setUp(Photo& photo, const JudgeRequest& request, const std::filesystem::path& calib) {
  if (!usesMat(request)) {
    auto scene = arrange(request.regions, photo.size(), request.limits);
    if (!scene) return std::unexpected(scene.error());
    return SetUp{std::move(*scene)};
  }
  const auto layouts = readMatLayouts(calib);
  if (!layouts) return std::unexpected(layouts.error());
  auto preview = photo.preview(kPreviewSide);
  if (!preview) return std::unexpected(preview.error());
  auto found = findMatScene(photo.size(), *preview, *layouts, !request.card_lab, request.limits);
  if (!found) return std::unexpected(found.error());
  return SetUp{std::move(found->scene), std::move(*preview), found->turn_deg, found->outline};
}

Result<void> splitSteps(Photo& photo, std::span<const double> coats, Scene& scene) {
  if (scene.regions.panels.size() != 1)
    return fail(Code::StepsNotFound, fmt::format("--steps is for one stepped panel, and {} lie on the mat", scene.regions.panels.size()));
  const Quad panel = scene.regions.panels.front();
  const Rect box = insidePicture(boundingBox(panel), photo.size());
  auto raster = xyzPixels(photo, std::span(&box, 1));
  if (!raster) return std::unexpected(raster.error());
  auto strips = findSteps(raster->front(), panel, coats.size());
  if (!strips) return std::unexpected(strips.error());
  scene.regions.panels = std::move(*strips);
  scene.panel_names.clear();
  for (const double n : coats)
    scene.panel_names.push_back(n == 0 ? "the bare ground" : fmt::format("the strip with {:g} {}", n, n == 1 ? "coat" : "coats"));
  return {};
}

bool stepsReversed(const Reading& reading, std::span<const double> coats) {
  const std::size_t n = coats.size();
  if (n < 4 || reading.panels.size() != n) return false;
  std::vector<std::pair<double, double>> steps;  // fewer coats of the two, difference a coat
  for (std::size_t i = 0; i + 1 < n; ++i)
    steps.push_back({std::min(coats[i], coats[i + 1]),
                     deltaE2000(reading.panels[i].lab, reading.panels[i + 1].lab) / std::abs(coats[i + 1] - coats[i])});
  std::ranges::sort(steps);
  double few = 0, many = 0;
  const std::size_t half = steps.size() / 2;
  for (std::size_t i = 0; i < half; ++i) {
    few += steps[i].second;
    many += steps[steps.size() - 1 - i].second;
  }
  constexpr double kMuchMore = 1.25;  // a film saturates: later coats change the colour less; judgement
  return many > kMuchMore * few;
}

Result<LightMap> sheetLight(const std::filesystem::path& path, const Scene& scene, Size size, const Limits& limits, Encoding encoding) {
  auto sheet = Photo::open(path, limits, encoding);
  if (!sheet) return std::unexpected(sheet.error());
  if (sheet->size() != size)
    return fail(Code::SheetUnusable, fmt::format("it is {} by {} pixels, the photo of the panel {} by {}", sheet->size().width, sheet->size().height,
                                                 size.width, size.height));
  double left = size.width, top = size.height, right = 0, bottom = 0;
  const Regions& r = scene.regions;
  std::vector<Quad> all(r.panels);
  if (r.card) all.push_back(*r.card);
  all.insert(all.end(), r.greys.begin(), r.greys.end());
  for (const Quad& quad : all)
    for (const Point& p : quad.corners) {
      left = std::min(left, p.x);
      top = std::min(top, p.y);
      right = std::max(right, p.x);
      bottom = std::max(bottom, p.y);
    }
  // A grid of spots over everything that is read.
  constexpr int kAcross = 14;
  const double longer = std::max(right - left, bottom - top), pitch = longer / kAcross;
  const int columns = std::max(4, static_cast<int>(std::lround((right - left) / pitch))), rows = std::max(4, static_cast<int>(std::lround((bottom - top) / pitch)));
  std::vector<Quad> quads;
  std::vector<Rect> rects;
  for (int j = 0; j < rows; ++j)
    for (int i = 0; i < columns; ++i) {
      const double w = (right - left) / columns, h = (bottom - top) / rows;
      const int x = static_cast<int>(left + (i + 0.2) * w), y = static_cast<int>(top + (j + 0.2) * h);
      Rect rect{x, y, std::max(4, static_cast<int>(0.6 * w)), std::max(4, static_cast<int>(0.6 * h))};
      rect = insidePicture(rect, size);
      if (rect.width < 4 || rect.height < 4) continue;
      rects.push_back(rect);
      quads.push_back(toQuad(rect));
    }
  const auto rasters = xyzPixels(*sheet, rects);
  if (!rasters) return std::unexpected(rasters.error());
  std::vector<PaperSpot> spots;
  for (std::size_t i = 0; i < quads.size(); ++i)
    if (const auto spot = paperSpot((*rasters)[i], quads[i])) spots.push_back(*spot);
  if (4 * spots.size() < 3 * quads.size()) return fail(Code::SheetUnusable, "the paper is burnt out or black in it");
  auto map = LightMap::fit(spots);
  if (!map) return map;
  std::size_t kept = 0;
  for (const auto& d : map->departures()) kept += d.kept;
  constexpr double kRough = 0.03;  // relative
  if (10 * kept < 9 * spots.size() || map->residual() > kRough)
    return fail(Code::SheetUnusable, "one even white sheet does not lie over all places of panel, card and grey");
  return map;
}

Result<SetUp> swappedScene(Photo& second, const SetUp& first, Size first_size, const JudgeRequest& request, const std::filesystem::path& calib) {
  if (first.sheet_turn) {
    auto found = setUp(second, request, calib);
    if (!found) return std::unexpected(found.error());
    Scene& scene = found->scene;
    if (scene.regions.panels.size() != 1 || !scene.regions.card)
      return fail(Code::SwappedUnusable, fmt::format("{} panels lie on its mat, where one should", scene.regions.panels.size()));
    constexpr double kHalfTurned = 90;
    if (turnBetween(*found->sheet_turn, *first.sheet_turn) < kHalfTurned) std::swap(scene.regions.panels.front(), *scene.regions.card);
    return found;
  }
  if (second.size() != first_size)
    return fail(Code::SwappedUnusable, fmt::format("it is {} by {} pixels, the first {} by {}", second.size().width, second.size().height,
                                                   first_size.width, first_size.height));
  SetUp laid{first.scene};
  Scene& scene = laid.scene;
  const Quad panel = scene.regions.panels.front(), card = *scene.regions.card;
  scene.regions.panels.front() = exchanged(panel, card);
  scene.regions.card = exchanged(card, panel);
  return laid;
}

}  // namespace huewright
