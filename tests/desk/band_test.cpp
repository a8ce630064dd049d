#include "desk/band.hpp"

#include <gtest/gtest.h>

#include <imgui.h>
#include <set>

#include "desk_frames.hpp"

namespace huewright::desk {
namespace {

TEST(Bands, HaveWordsAndShapesOfTheirOwn) {
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
