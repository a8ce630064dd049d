// A photo of two panels on the mat with a printed tag below each, made up.
#pragma once

#include <filesystem>
#include <stdexcept>
#include <vector>

#include "mat_picture.hpp"
#include "photo/write.hpp"
#include "scene/tag_text.hpp"
#include "support/mat_layouts.hpp"
#include "support/tag_picture.hpp"

namespace huewright::fixtures {

/// Two panels, a card and two greys on the A4 mat, with tags of 28 mm below the panels.
inline std::filesystem::path shootTagged(const std::filesystem::path& path, const std::vector<TagText>& tags) {
  constexpr Size kSize{1500, 1125};
  const MatLayout& a4 = matLayout("a4");
  Contents contents(a4.windows.size());
  for (std::size_t i = 0; i < a4.windows.size(); ++i) {
    const MatWindow& w = a4.windows[i];
    if (w.kind == MatWindowKind::Panel && w.index < 2) contents[i] = Filled{{0.035, 0.19, 0.22}};
    if (w.kind == MatWindowKind::Card) contents[i] = Filled{{0.040, 0.22, 0.24}};
    if (w.kind == MatWindowKind::Grey) contents[i] = Filled{{0.19, 0.19, 0.19}};
  }
  MatPicture picture(kSize, 7);
  const Mat3 lie = matHomography(a4, {.turn = 4, .tilt = 12}, kSize);
  picture.lay(a4, lie, contents);
  Preview preview = picture.take(0.6, 1.5);
  for (std::size_t i = 0; i < tags.size(); ++i) {
    constexpr double kCell = 28.0 / kTagAcross;
    const Mat3 on_sheet{{{{kCell, 0, 42.5 + 46 * static_cast<double>(i)}, {0, kCell, 152}, {0, 0, 1}}}};
    layTag(preview, tagCells(tags[i]).value(), lie * on_sheet);
    blurTag(preview, tagBox(lie * on_sheet), 0.6, 1.5, 3);
  }
  if (!writePng(path, preview.size, preview.rgb)) throw std::runtime_error("cannot write " + path.string());
  return path;
}

}  // namespace huewright::fixtures
