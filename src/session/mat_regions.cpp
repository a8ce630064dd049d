#include "session/mat_regions.hpp"

#include "scene/window_state.hpp"

namespace huewright {

Result<Regions> regionsOnMat(const Preview& preview, const FoundMat& mat, bool need_card) {
  Regions regions;
  for (std::size_t i = 0; i < mat.windows.size(); ++i) {
    const WindowState state = windowState(preview, mat, i);
    switch (mat.layout.windows[i].kind) {
      case MatWindowKind::Panel:
        if (state == WindowState::Filled) regions.panels.push_back(mat.windows[i]);
        break;
      case MatWindowKind::Card:
        if (need_card && state != WindowState::Empty) regions.card = mat.windows[i];
        break;
      case MatWindowKind::Grey:
        if (state == WindowState::Filled) regions.greys.push_back(mat.windows[i]);
        break;
      case MatWindowKind::Black: break;
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

Result<Regions> findRegions(Photo& photo, std::span<const MatLayout> layouts, bool need_card) {
  constexpr int kPreviewSide = 1500;
  const auto preview = photo.preview(kPreviewSide);
  if (!preview) return std::unexpected(preview.error());
  const auto mat = findMat(*preview, layouts);
  if (!mat) return std::unexpected(mat.error());
  return regionsOnMat(*preview, *mat, need_card);
}

}  // namespace huewright
