#include "desk/swatch.hpp"

#include <gtest/gtest.h>

#include <imgui.h>
#include <set>

#include "desk_frames.hpp"
#include "judged_job.hpp"

namespace huewright::desk {
namespace {

TEST(SwatchView, FieldsTouchAndTakeTheWholeWidth) {
  const Swatch a{{10, 200, 30}, false, "a"}, b{{200, 10, 30}, false, "b"};
  Frames frames(Page::Panel, [&](DeskState&, Drawing& d) {
    const std::array fields{SwatchField{&a, "one"}, SwatchField{&b, "two"}};
    drawSwatches(fields, 301, 100, 0, d.look);
  });
  frames.frames(2);
  EXPECT_NEAR(fixtures::areaOf({10, 200, 30}) + fixtures::areaOf({200, 10, 30}), 301 * 100, 100);  // half a pixel at either edge
}

TEST(SwatchView, AClickTellsWhich) {
  const Swatch a{{10, 200, 30}, false, "a"};
  int clicked = -1;
  Frames frames(Page::Panel, [&](DeskState&, Drawing& d) {
    const std::array fields{SwatchField{&a, "one"}, SwatchField{&a, "two"}, SwatchField{&a, "three"}};
    if (const int at = drawSwatches(fields, 300, 100, 0, d.look); at >= 0) clicked = at;
  });
  frames.frames(2);
  frames.click(160, 60);
  EXPECT_EQ(clicked, 1);
  EXPECT_EQ(drawSwatches({}, 10, 10, 0, frames.look), -1);
}

TEST(SwatchView, BandsHaveWordsAndShapesOfTheirOwn) {
  std::set<std::string> words;
  std::set<std::vector<float>> shapes;
  for (const Band band : {Band::There, Band::CantSay, Band::Nearly, Band::NotThere}) {
    words.insert(bandWords(band));
    Frames frames(Page::Panel, [&](DeskState&, Drawing& d) { drawBand(band, 60, d.look); });
    frames.frames(2);
    std::vector<float> shape;
    for (const ImDrawVert& v : ImGui::GetDrawData()->CmdLists[0]->VtxBuffer) shape.insert(shape.end(), {v.pos.x, v.pos.y});
    shapes.insert(shape);
  }
  EXPECT_EQ(words.size(), 4u);
  EXPECT_EQ(shapes.size(), 4u);
}

}  // namespace
}  // namespace huewright::desk
