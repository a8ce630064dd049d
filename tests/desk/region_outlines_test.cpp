#include "desk/region_outlines.hpp"

#include <gtest/gtest.h>
#include <set>

#include "support/desk_photo.hpp"

namespace huewright::desk {
namespace {

const PhotoPlace kOutlinePlace = placeOf({0, 0, 500, 400}, {1000, 800}, 0, {});

std::vector<RegionPart> bigAndSmall() {
  Regions r;
  r.panels = {toQuad({100, 100, 400, 400})};
  r.card = toQuad({500, 100, 300, 400});
  r.greys = {toQuad({200, 200, 60, 60})};  // lies on the panel
  return partsOf(r);
}

TEST(RegionOutlines, EveryKindHasALineOfItsOwn) {
  std::set<LineStyle> styles;
  for (const PartKind kind : {PartKind::Panel, PartKind::Card, PartKind::Grey, PartKind::Black}) styles.insert(lineOf(kind));
  EXPECT_EQ(styles.size(), 4u);
  EXPECT_FALSE(styles.contains(LineStyle::Thin));  // that of what is found and not dragged
}

TEST(RegionOutlines, CornersBeforeBodiesTheChosenBeforeTheOthers) {
  const auto parts = bigAndSmall();
  struct Case {
    Point screen;
    int chosen;
    Grip grip;
  };
  const Case cases[]{
      {{60, 60}, -1, {0, 0}},     {{245, 55}, -1, {1, 0}},   // the card is smaller than the panel
      {{245, 55}, 0, {0, 1}},     {{245, 55}, 1, {1, 0}},    {{110, 110}, -1, {2, 0}}, {{115, 115}, 0, {2, 4}},
      {{200, 220}, -1, {0, 4}},   {{350, 150}, 0, {1, 4}},   {{450, 350}, 1, {-1, -1}},
  };
  for (const Case& c : cases) EXPECT_EQ(gripAt(kOutlinePlace, parts, c.chosen, c.screen, 12), c.grip) << c.screen.x << ", " << c.screen.y << " chosen " << c.chosen;
}

TEST(RegionOutlines, TagsStandClearOfOneAnotherAndInTheField) {
  fixtures::DeskDriver driver;
  ImGui::NewFrame();
  ImGui::Begin("tags");
  std::vector<Field> taken;
  for (int i = 0; i < 4; ++i) drawNameTag(kOutlinePlace, toQuad({300 + 20 * i, 300, 18, 18}), "grey " + std::to_string(i), TagAt::Above, false, taken, driver.desk().look());
  drawNameTag(kOutlinePlace, toQuad({0, 0, 1000, 800}), "mat", TagAt::Above, false, taken, driver.desk().look());
  drawNameTag(kOutlinePlace, toQuad({4000, 0, 100, 80}), "out of sight", TagAt::Above, false, taken, driver.desk().look());
  ImGui::End();
  ImGui::Render();
  ASSERT_EQ(taken.size(), 5u);
  for (std::size_t a = 0; a < taken.size(); ++a) {
    EXPECT_TRUE(taken[a].left >= 0 && taken[a].top >= 0 && taken[a].left + taken[a].width <= 500 && taken[a].top + taken[a].height <= 400) << a;
    for (std::size_t b = 0; b < a; ++b) EXPECT_FALSE(taken[a].left < taken[b].left + taken[b].width && taken[b].left < taken[a].left + taken[a].width && taken[a].top < taken[b].top + taken[b].height && taken[b].top < taken[a].top + taken[a].height) << a << " " << b;
  }
}

TEST(RegionOutlines, AFarLargerOutlineIsNotDrawnBeyondTheField) {
  fixtures::DeskDriver driver;
  ImGui::NewFrame();
  ImGui::Begin("outline");
  const PhotoPlace close = placeOf({0, 0, 500, 400}, {40000, 30000}, 30, {100, 100});
  const int before = ImGui::GetWindowDrawList()->VtxBuffer.Size;
  drawOutline(close, toQuad({95, 95, 39000, 29000}), LineStyle::Dots, false, driver.desk().look());
  const int points = ImGui::GetWindowDrawList()->VtxBuffer.Size - before;
  ImGui::End();
  ImGui::Render();
  EXPECT_GT(points, 20);
  EXPECT_LT(points, 4000);  // a million screen pixels of dots would be more than a hundred thousand
}

}  // namespace
}  // namespace huewright::desk
