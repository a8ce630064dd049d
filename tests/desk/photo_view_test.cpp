// The photo view, driven through whole frames of the desk.
#include <gtest/gtest.h>

#include "desk/region_parts.hpp"
#include "support/desk_photo.hpp"

namespace huewright::desk {
namespace {

using fixtures::DeskDriver;

struct PhotoViewTest : testing::Test {
  void begin(float text = 1, float width = 1280, float height = 720) {
    driver.reset();
    driver = std::make_unique<DeskDriver>(width, height, text);
    fixtures::takeActions(*driver);
    fixtures::addPhoto(driver->state, 7, PhotoRole::First);
    driver->frames(2);
    picture = driver->textures.last;
    driver->actions.clear();
  }
  /// Where a full-size point of the photo is drawn, read from what went to the graphics card.
  Point screen(Point full) const {
    const auto box = DeskDriver::imageBox(picture);
    return {box[0] + full.x / 2000 * (box[2] - box[0]), box[1] + full.y / 1500 * (box[3] - box[1])};
  }
  /// The full-size point that is drawn at a screen pixel.
  Point full(Point at) const {
    const auto box = DeskDriver::imageBox(picture);
    return {2000 * (at.x - box[0]) / (box[2] - box[0]), 1500 * (at.y - box[1]) / (box[3] - box[1])};
  }
  static Point onPixel(Point at) { return {std::floor(at.x), std::floor(at.y)}; }
  double zoom() const {
    const auto box = DeskDriver::imageBox(picture);
    return (box[2] - box[0]) / 2000;
  }
  const Regions& regions() const { return driver->state.photos.front().regions; }
  PhotoViewState& view() const { return driver->view().photo; }

  std::unique_ptr<DeskDriver> driver;
  TextureId picture{};
};

TEST_F(PhotoViewTest, TheWholePhotoIsShownAtFirst) {
  begin();
  const auto box = DeskDriver::imageBox(picture);
  EXPECT_GT(box[2] - box[0], 300);
  EXPECT_NEAR((box[2] - box[0]) / (box[3] - box[1]), 2000.0 / 1500, 0.01);
  EXPECT_GE(box[0], 0);
  EXPECT_LE(box[2], 1280);
  EXPECT_EQ(view().zoom, 0);
  EXPECT_TRUE(driver->actions.empty());
}

TEST_F(PhotoViewTest, ACornerMovesByTheDragOverZoom) {
  begin();
  const Quad before = regions().panels[0];
  const Point from = onPixel(screen(before.corners[2]));
  const double z = zoom();
  driver->drag(from.x, from.y, from.x + 30, from.y + 22);
  const auto sets = driver->all<act::SetRegions>();
  ASSERT_FALSE(sets.empty());
  EXPECT_EQ(sets.front().id, 7);
  EXPECT_FALSE(sets.front().joins);
  for (std::size_t i = 1; i < sets.size(); ++i) EXPECT_TRUE(sets[i].joins);
  const Quad after = regions().panels[0];
  EXPECT_NEAR(after.corners[2].x, before.corners[2].x + 30 / z, 0.01);
  EXPECT_NEAR(after.corners[2].y, before.corners[2].y + 22 / z, 0.01);
  for (const std::size_t i : {0u, 1u, 3u}) EXPECT_EQ(after.corners[i], before.corners[i]);
  EXPECT_EQ(regions().card, toQuad({900, 400, 400, 500}));
}

TEST_F(PhotoViewTest, TheWheelKeepsThePixelUnderThePointer) {
  begin();
  const Point pointer = onPixel(screen({650, 700})), under = full(pointer);
  driver->move(pointer.x, pointer.y);
  for (int i = 0; i < 3; ++i) {
    driver->wheel(1);
    EXPECT_NEAR(full(pointer).x, under.x, 0.1) << i;
    EXPECT_NEAR(full(pointer).y, under.y, 0.1) << i;
  }
  EXPECT_GT(view().zoom, 0);
  driver->key(Do::ZoomWhole);
  EXPECT_EQ(view().zoom, 0);
}

TEST_F(PhotoViewTest, EveryPixelIsAskedForOnce) {
  begin();
  driver->key(Do::ZoomPixels);
  EXPECT_NEAR(zoom(), 1, 1e-3);
  driver->frames(3);
  ASSERT_EQ(driver->all<act::LookClosely>().size(), 1u);
  EXPECT_EQ(driver->all<act::LookClosely>()[0].id, 7);
  driver->state.photos[0].full = fixtures::patternPicture({2000, 1500});
  driver->frame();
  EXPECT_TRUE(driver->textures.last_smooth);
  for (int i = 0; i < 3; ++i) driver->key(Do::ZoomIn);
  EXPECT_FALSE(driver->textures.last_smooth);  // more than two screen pixels: squares
  EXPECT_EQ(driver->all<act::LookClosely>().size(), 1u);
  EXPECT_TRUE(driver->textures.sizes_right);
}

TEST_F(PhotoViewTest, ArrowsNudgeTheChosenRegionOrPullThePhoto) {
  begin();
  driver->key(Do::NextRegion);
  EXPECT_EQ(view().selected, 0);
  driver->key(Do::NudgeRight);
  EXPECT_EQ(regions().panels[0], toQuad({401, 400, 400, 500}));
  driver->key(kKeyDown, false, true);
  EXPECT_EQ(regions().panels[0], toQuad({401, 410, 400, 500}));
  driver->key(Do::NextRegion);
  driver->key(Do::NudgeLeft);
  driver->key(Do::NudgeUp);
  EXPECT_EQ(regions().card, toQuad({899, 399, 400, 500}));
  for (int i = 0; i < 2; ++i) driver->key(Do::NextRegion);
  EXPECT_EQ(view().selected, -1);
  driver->actions.clear();
  driver->key(Do::ZoomPixels);
  const double before = view().centre.x;
  driver->key(Do::NudgeRight);
  EXPECT_GT(view().centre.x, before + 10);
  EXPECT_TRUE(driver->all<act::SetRegions>().empty());
}

TEST_F(PhotoViewTest, EachKindIsAddedByItsKeyAndADrag) {
  begin();
  for (const auto& [what, part] : {std::pair{Do::AddPanel, 1}, std::pair{Do::AddCard, 2}, std::pair{Do::AddGrey, 4}, std::pair{Do::AddBlack, 5}}) {
    driver->key(what);
    EXPECT_GT(view().adding, 0);
    const Point from = onPixel(screen({1400, 1000})), to = onPixel(screen({1800, 1300})), first = full(from), last = full(to);
    driver->drag(from.x, from.y, to.x, to.y);
    const auto parts = partsOf(regions());
    ASSERT_LT(static_cast<std::size_t>(part), parts.size());
    EXPECT_EQ(view().selected, part);
    const Quad quad = parts[static_cast<std::size_t>(part)].quad;
    EXPECT_NEAR(quad.corners[0].x, first.x, 0.05);
    EXPECT_NEAR(quad.corners[2].y, last.y, 0.05);
    EXPECT_EQ(view().adding, 0);
  }
  const std::size_t before = driver->actions.size();
  driver->key(Do::AddPanel);
  driver->key(Do::StopWork);
  EXPECT_EQ(view().adding, 0);
  EXPECT_EQ(driver->actions.size(), before);
}

TEST_F(PhotoViewTest, RemoveFindAndOverlaysByKey) {
  begin();
  driver->key(Do::RemoveRegion);
  EXPECT_TRUE(driver->actions.empty());  // none is chosen
  driver->key(Do::NextRegion);
  driver->key(Do::RemoveRegion);
  EXPECT_TRUE(regions().panels.empty());
  EXPECT_TRUE(regions().card.has_value());
  driver->key(Do::FindRegions);
  ASSERT_EQ(driver->all<act::FindRegions>().size(), 1u);
  for (const bool on : {true, false}) {
    driver->actions.clear();
    driver->key(Do::ShowMap);
    driver->key(Do::ShowMarks);
    ASSERT_EQ(driver->all<act::WantMap>().size(), 1u);
    ASSERT_EQ(driver->all<act::WantMarks>().size(), 1u);
    EXPECT_EQ(driver->all<act::WantMap>()[0].on, on);
    EXPECT_EQ(driver->all<act::WantMarks>()[0].on, on);
  }
  driver->key(Do::HideRegions);
  EXPECT_TRUE(view().hidden);
  driver->key(Do::ZoomIn);
  EXPECT_GT(view().zoom, 0);
  driver->key(Do::ZoomOut);
  EXPECT_EQ(view().zoom, 0);
}

TEST_F(PhotoViewTest, APhotoThatFollowsTheFirstHasNoRegionsToDrag) {
  begin();
  fixtures::addPhoto(driver->state, 8, PhotoRole::Again);
  driver->state.photos[1].regions = regions();
  driver->state.photos[1].preview = driver->state.photos[0].preview;
  driver->state.shown = 8;
  driver->frames(2);
  const Point from = screen({600, 600});
  EXPECT_EQ(driver->state.shown, 8);
  driver->drag(from.x, from.y, from.x + 40, from.y);
  driver->key(Do::AddPanel);
  EXPECT_EQ(view().adding, 0);
  EXPECT_TRUE(driver->all<act::SetRegions>().empty());
}

TEST_F(PhotoViewTest, AtTheLargestTypeEveryKeyStillWorks) {
  begin(3);
  driver->key(Do::NextRegion);
  EXPECT_EQ(view().selected, 0);
  driver->key(Do::NudgeDown);
  EXPECT_EQ(driver->all<act::SetRegions>().size(), 1u);
  driver->key(Do::RemoveRegion);
  EXPECT_TRUE(regions().panels.empty());
  driver->key(Do::FindRegions);
  driver->key(Do::ShowMap);
  driver->key(Do::ShowMarks);
  EXPECT_EQ(driver->all<act::FindRegions>().size() + driver->all<act::WantMap>().size() + driver->all<act::WantMarks>().size(), 3u);
  driver->key(Do::Magnifier);
  driver->key(Do::HideRegions);
  EXPECT_TRUE(view().magnifier && view().hidden);
  for (const auto& [what, number] : {std::pair{Do::AddPanel, 1}, std::pair{Do::AddCard, 2}, std::pair{Do::AddGrey, 3}, std::pair{Do::AddBlack, 4}}) {
    driver->key(what);
    EXPECT_EQ(view().adding, number);
  }
  driver->key(Do::ZoomIn);
  EXPECT_GT(view().zoom, 0);
  driver->key(Do::AddTilted);
  EXPECT_EQ(driver->view().browser.asking, Asking::Tilted);
}

TEST_F(PhotoViewTest, AFileThatCannotBeUsedSaysSoAndDoesNothing) {
  begin();
  driver->state.photos[0].trouble = "The file ends before the picture does.";
  driver->frame();
  for (const Do what : {Do::ZoomIn, Do::AddPanel, Do::NextRegion, Do::RemoveRegion, Do::FindRegions, Do::ShowMap, Do::NudgeLeft}) driver->key(what);
  driver->drag(200, 300, 260, 340);
  EXPECT_TRUE(driver->actions.empty());
  EXPECT_EQ(view().adding, 0);
}

TEST_F(PhotoViewTest, NoPhotoNoTrouble) {
  driver = std::make_unique<DeskDriver>();
  for (const Do what : {Do::ZoomIn, Do::AddPanel, Do::NextRegion, Do::RemoveRegion, Do::FindRegions, Do::ShowMap, Do::Magnifier}) driver->key(what);
  driver->drag(200, 300, 260, 340);
  EXPECT_TRUE(driver->actions.empty());
}

TEST_F(PhotoViewTest, TexturesOfClosedPhotosAreDropped) {
  begin();
  for (int i = 0; i < 40; ++i) {
    driver->state.photos[0].preview = fixtures::patternPicture({1000, 750}, 0.5);
    driver->frames(2);
    EXPECT_LE(driver->textures.held.size(), 3u);
  }
  EXPECT_TRUE(driver->textures.dropped_right);
}

TEST_F(PhotoViewTest, NothingIsCutOffAtItsEdges) {
  for (const float text : {1.0f, 2.0f, 3.0f}) {
    begin(text);
    driver->view().photo.map = driver->view().photo.marks = true;
    driver->state.judge_trouble = "No mat was found. Keep all four corners of it in the picture, or mark panel and card by hand.";
    MapShown map;
    map.quad = regions().panels[0];
    map.picture = fixtures::patternPicture({40, 50});
    map.top = 3;
    map.scale = {{0, 0, 0}, {128, 128, 128}, {255, 255, 255}};
    map.sentences = {"Deepest at the left edge: 2.1 there, 0.8 in the middle."};
    driver->state.map = map;
    MarksShown marks;
    marks.regions.push_back({regions().panels[0], fixtures::patternPicture({40, 50}), 0.02, 0, 0.004});
    driver->state.marks = marks;
    driver->frames(2);
    const float cut = DeskDriver::cutOff("/photo_");
    EXPECT_GT(cut, -1e9f);
    EXPECT_LE(cut, 1.0f) << text;
    EXPECT_GT(DeskDriver::imageBox(picture)[2], 0) << text;
  }
}

}  // namespace
}  // namespace huewright::desk
