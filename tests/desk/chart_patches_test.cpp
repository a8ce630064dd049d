#include "desk/chart_patches.hpp"

#include <gtest/gtest.h>
#include <tuple>

#include "desk_frames.hpp"

namespace huewright::desk {
namespace {

/// A photo of 400 × 200 pixels with three patches: a good one, one that stands out, one in glare.
ChartPhotoShown threePatches() {
  ChartPhotoShown photo;
  photo.file = "chart.jpg";
  photo.size = {400, 200};
  auto picture = std::make_shared<Picture>();
  picture->size = {200, 100};
  picture->scale = 0.5;
  picture->rgba.assign(200 * 100 * 4, 200);
  photo.preview = picture;
  for (const int x : {20, 120, 220}) {
    ChartPatchShown patch;
    patch.name = "patch";
    patch.quad = toQuad({x, 40, 60, 60});
    patch.off = 1;
    photo.patches.push_back(patch);
  }
  photo.patches[1].stands_out = true;
  photo.patches[2].off = -1;
  photo.patches[2].why = "in glare";
  return photo;
}

/// What is drawn of one patch, which lies 150 px high on the screen: how high its outline is, and how much type there is.
struct PatchDrawn {
  float height = 0;
  int type = 0;
  int outline = 0;
};
PatchDrawn drawnOf(const ChartPatchShown& patch) {
  ChartPhotoShown photo = threePatches();
  photo.patches = {patch};
  photo.patches[0].quad = toQuad({100, 50, 60, 60});
  PatchDrawn out;
  Frames frames(Page::Camera, [&](DeskState&, Drawing& d) {
    ImDrawList* list = ImGui::GetWindowDrawList();
    const int before = list->VtxBuffer.Size;
    drawChartPhoto(photo, d.textures, 195, 195, d.look);  // the patch and 15 % round it, 78 × 78 of the photo's pixels
    out = {};
    float top = 1e9f, bottom = 0;
    for (int i = before; i < list->VtxBuffer.Size; ++i) {
      const ImDrawVert& v = list->VtxBuffer[i];
      if (v.col == ink(d.look.greys.type)) ++out.type;
      if (v.col != IM_COL32(0, 0, 0, 255)) continue;
      ++out.outline;
      top = std::min(top, v.pos.y);
      bottom = std::max(bottom, v.pos.y);
    }
    out.height = bottom - top;
  });
  frames.frames(2);
  return out;
}

TEST(ChartPatches, ThoseToLookAtAreMarkedByShapeAndWord) {
  const ChartPhotoShown photo = threePatches();
  const PatchDrawn good = drawnOf(photo.patches[0]), odd = drawnOf(photo.patches[1]), out = drawnOf(photo.patches[2]);
  EXPECT_NEAR(good.height, 150, 6);
  EXPECT_NEAR(odd.height, 1.3 * 150, 10) << "a second outline round it";
  EXPECT_NEAR(out.height, 150, 6);
  EXPECT_NE(good.outline, out.outline) << "crossed through";
  EXPECT_EQ(good.type, 0);
  EXPECT_EQ(odd.type, 4 * 6) << "1.0 off, without the space";
  EXPECT_EQ(out.type, 4 * 7) << "in glare";
}

TEST(ChartPatches, PointingAtOneTellsItWhereItLies) {
  const ChartPhotoShown photo = threePatches();
  ImVec2 at{};
  Frames frames(Page::Camera, [&](DeskState&, Drawing& d) {
    at = ImGui::GetCursorScreenPos();
    drawChartPhoto(photo, d.textures, 800, 800, d.look);
  });
  frames.frames(2);
  // The patches span 20 to 280 and 40 to 100; 15 % more to each side, within the photo, is 0 to 319 and 31 to 109, on 800 px.
  const float fit = 800.0f / 319;
  for (const auto& [x, y, want] : {std::tuple{50.0f, 70.0f, true}, {150.0f, 70.0f, true}, {250.0f, 70.0f, true}, {22.0f, 70.0f, true}, {278.0f, 70.0f, true}, {18.0f, 70.0f, false}, {283.0f, 70.0f, false}, {100.0f, 70.0f, false}, {50.0f, 36.0f, false}, {50.0f, 98.0f, true}, {50.0f, 103.0f, false}}) {
    frames.move(at.x + fit * x, at.y + fit * (y - 31));
    EXPECT_EQ(frames.tooltip(), want) << x << " " << y;
  }
}

TEST(ChartPatches, ThePhotoKeepsItsShape) {
  ChartPhotoShown photo = threePatches();
  photo.patches.clear();             // then all of it is shown
  ImVec2 size{};
  Frames frames(Page::Camera, [&](DeskState&, Drawing& d) {
    drawChartPhoto(photo, d.textures, 300, 800, d.look);
    size = ImGui::GetItemRectSize();
    patchesKey(photo, d.look);
  });
  frames.frames(2);
  EXPECT_EQ(size.x, 300);
  EXPECT_EQ(size.y, 150);
}

}  // namespace
}  // namespace huewright::desk
