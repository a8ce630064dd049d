#include "session/mat_regions.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>

#include "scene/mat_paper.hpp"
#include "scene/window_state.hpp"

namespace huewright {
namespace {

std::vector<WindowState> statesOf(const Preview& preview, const FoundMat& mat) {
  std::vector<WindowState> states;
  for (std::size_t i = 0; i < mat.windows.size(); ++i) states.push_back(windowState(preview, mat, i));
  return states;
}

Result<Regions> regionsOf(const Preview& preview, const FoundMat& mat, std::span<const WindowState> states, bool need_card) {
  Regions regions;
  for (std::size_t i = 0; i < mat.windows.size(); ++i) {
    const auto thing = [&] { return mat.place(windowContents(preview, mat, i)); };
    switch (mat.layout.windows[i].kind) {
      case MatWindowKind::Panel:
        if (states[i] == WindowState::Filled) regions.panels.push_back(thing());
        break;
      case MatWindowKind::Card:
        if (need_card && states[i] != WindowState::Empty) regions.card = thing();
        break;
      case MatWindowKind::Grey:
        if (states[i] == WindowState::Filled) regions.greys.push_back(thing());
        break;
      case MatWindowKind::Black:
        if (states[i] == WindowState::Filled) regions.black = thing();
        break;
    }
  }
  if (mat.aperture) {  // a strip: it shows one part, and has no place for a card
    regions.panels.push_back(*mat.aperture);
    if (need_card) return fail(Code::MatNoCard);
  }
  if (regions.panels.empty()) return fail(Code::MatEmpty, "every panel window");
  if (need_card && !regions.card) return fail(Code::MatEmpty, "the card window");
  return regions;
}

/// The smallest rectangle on the sheet that holds all its markers, as it lies in the photo.
Quad outlineOf(const FoundMat& mat) {
  double left = mat.layout.width, top = mat.layout.height, right = 0, bottom = 0;
  for (const MatMarker& marker : mat.layout.markers) {
    const MatRect place = placeOf(marker);
    left = std::min(left, place.x);
    top = std::min(top, place.y);
    right = std::max(right, place.x + place.width);
    bottom = std::max(bottom, place.y + place.height);
  }
  return mat.place(MatRect{left, top, right - left, bottom - top});
}

/// What to say of a sheet that was not printed to scale; nothing when it was, or when it cannot be seen.
std::optional<Caution> scaleCaution(const Preview& preview, const FoundMat& mat, std::span<const MatLayout> layouts) {
  const auto scale = printScale(preview, mat, layouts);
  if (!scale) return {};
  constexpr double kOff = 0.015, kClearly = 2.5;
  const auto off = [&](double s) { return std::abs(s - 1) > std::max(kOff, kClearly * scale->sd); };
  if (!off(scale->along_width) && !off(scale->along_height)) return {};
  const bool stretched = std::abs(scale->along_width / scale->along_height - 1) > std::max(kOff, kClearly * scale->sd);
  const std::string how = stretched ? fmt::format("The mat seems to be printed at {:.0f} % across and {:.0f} % down", 100 * scale->along_width,
                                                  100 * scale->along_height)
                                    : fmt::format("The mat seems to be printed at {:.0f} %", 50 * (scale->along_width + scale->along_height));
  return Caution{CautionCode::PrintScale, how};
}

}  // namespace

Result<Regions> regionsOnMat(const Preview& preview, const FoundMat& mat, bool need_card) {
  return regionsOf(preview, mat, statesOf(preview, mat), need_card);
}

Result<MatScene> findMatScene(Size photo, const Preview& preview, std::span<const MatLayout> layouts, bool need_card, const Limits& limits) {
  const auto mat = findMat(preview, layouts);
  if (!mat) return std::unexpected(mat.error());
  const auto states = statesOf(preview, *mat);
  const auto regions = regionsOf(preview, *mat, states, need_card);
  if (!regions) return std::unexpected(regions.error());
  auto scene = arrange(*regions, photo, limits);
  if (!scene) return std::unexpected(scene.error());
  scene->paper = blankPaper(*mat, states, photo);
  scene->found_by_itself = true;
  scene->dots = dotPlaces(*mat, photo);
  if (const auto caution = scaleCaution(preview, *mat, layouts)) scene->cautions.push_back(*caution);
  const Point from = mat->place(Point{0, 0}), to = mat->place(Point{mat->layout.width, 0});
  return MatScene{std::move(*scene), std::atan2(to.y - from.y, to.x - from.x) * 180 / std::numbers::pi, outlineOf(*mat)};
}

}  // namespace huewright
