#include <gtest/gtest.h>
#include <set>

#include "desk/series_parts.hpp"
#include "desk_frames.hpp"
#include "teal_job.hpp"

namespace huewright::desk {
namespace {

TEST(SeriesDistances, AClickOnAPanelsPointChoosesItsRow) {
  Frames frames(Page::Mixes, [](DeskState& view, Drawing& d) { drawDistances(view.series, d, 700, 500); });
  frames.state = tealJob();
  frames.frames(2);
  std::set<int> chosen;
  for (float y = 10; y < 520; y += 8)
    for (float x = 10; x < 720; x += 8) {
      frames.view.series.selected = -1;
      frames.move(x, y);
      if (!frames.tooltip()) continue;
      frames.clicked(x, y);
      chosen.insert(frames.view.series.selected);
    }
  EXPECT_EQ(chosen, (std::set<int>{-1, 0, 1, 2})) << "the three readings; the curve and the next mix choose none";
}

TEST(SeriesDistances, WithoutAPlotNothingIsDrawn) {
  Frames frames(Page::Mixes, [](DeskState& view, Drawing& d) {
    const float before = ImGui::GetCursorPosY();
    drawDistances(view.series, d, 700, 500);
    EXPECT_EQ(ImGui::GetCursorPosY(), before);
  });
  frames.frame();
}

}  // namespace
}  // namespace huewright::desk
