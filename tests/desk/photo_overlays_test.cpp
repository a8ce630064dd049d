#include "desk/photo_overlays.hpp"

#include <gtest/gtest.h>

#include "scene/homography.hpp"
#include "support/desk_photo.hpp"

namespace huewright::desk {
namespace {

TEST(PhotoOverlays, PerspectiveIsThatOfTheHomography) {
  const Quad quad{{{{100, 120}, {900, 60}, {1000, 700}, {60, 640}}}};
  const std::vector<Point> square{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, corners(quad.corners.begin(), quad.corners.end());
  const auto fit = fitHomography(square, corners);
  ASSERT_TRUE(fit.has_value());
  for (const Point at : {Point{0, 0}, Point{1, 0}, Point{1, 1}, Point{0, 1}, Point{0.5, 0.5}, Point{0.2, 0.9}}) {
    const Point want = mapped(fit->matrix, at), got = inPerspective(quad, at.x, at.y);
    EXPECT_NEAR(got.x, want.x, 1e-6);
    EXPECT_NEAR(got.y, want.y, 1e-6);
  }
}

struct OverlayTest : testing::Test {
  OverlayTest() {
    fixtures::addPhoto(driver.state, 1, PhotoRole::First);
    driver.frames(2);
    photo = driver.textures.last;
  }
  fixtures::DeskDriver driver;
  TextureId photo{};
};

TEST_F(OverlayTest, TheMapLiesOnItsQuad) {
  MapShown map;
  map.quad = driver.state.photos[0].regions.panels[0];
  map.picture = fixtures::patternPicture({40, 50});
  map.top = 3;
  map.scale = {{0, 0, 0}, {255, 255, 255}};
  driver.state.map = map;
  driver.frame();
  EXPECT_EQ(driver.textures.last, photo);  // not asked for
  driver.view().photo.map = true;
  driver.frame();
  ASSERT_NE(driver.textures.last, photo);
  const auto whole = fixtures::DeskDriver::imageBox(photo), piece = fixtures::DeskDriver::imageBox(driver.textures.last);
  const double zoom = (whole[2] - whole[0]) / 2000;
  // One of its 8 × 8 pieces, on a panel of 400 × 500.
  EXPECT_NEAR(piece[2] - piece[0], 50 * zoom, 0.05);
  EXPECT_NEAR(piece[3] - piece[1], 62.5 * zoom, 0.05);
}

TEST_F(OverlayTest, AnotherPhotoHasNoMap) {
  MapShown map;
  map.quad = driver.state.photos[0].regions.panels[0];
  map.picture = fixtures::patternPicture({40, 50});
  driver.state.map = map;
  driver.view().photo.map = true;
  fixtures::addPhoto(driver.state, 2, PhotoRole::Again);
  driver.state.photos[1].preview = driver.state.photos[0].preview;
  driver.state.shown = 2;
  driver.frames(2);
  EXPECT_EQ(driver.textures.last, photo);
}

}  // namespace
}  // namespace huewright::desk
