#include <gtest/gtest.h>

#include "support/desk_photo.hpp"

namespace huewright::desk {
namespace {

TEST(Magnifier, AsksForEachPixelOnceAndShowsItInACornerAwayFromThePointer) {
  fixtures::DeskDriver driver;
  fixtures::addPhoto(driver.state, 4, PhotoRole::First);
  driver.frames(2);
  const auto box = fixtures::DeskDriver::imageBox(driver.textures.last);
  const float x = 0.5f * (box[0] + box[2]), y = 0.5f * (box[1] + box[3]);
  driver.move(x, y);
  driver.frames(2);
  EXPECT_TRUE(driver.all<act::Probe>().empty());  // not before it is asked for
  driver.key(Do::Magnifier);
  driver.frames(3);
  ASSERT_EQ(driver.all<act::Probe>().size(), 1u);
  EXPECT_EQ(driver.all<act::Probe>()[0].id, 4);
  EXPECT_NEAR(driver.all<act::Probe>()[0].at.x, 2000 * (std::floor(x) - box[0]) / (box[2] - box[0]), 0.01);
  EXPECT_NEAR(driver.all<act::Probe>()[0].at.y, 1500 * (std::floor(y) - box[1]) / (box[3] - box[1]), 0.01);
  driver.move(x + 20, y);
  EXPECT_EQ(driver.all<act::Probe>().size(), 2u);

  ProbeShown probe;
  probe.photo = 4;
  probe.around = fixtures::patternPicture({15, 15});
  probe.lines = {"linear 0.182 0.204 0.231", "L* 48.3  a* -24.1  b* -7.1"};
  driver.state.probe = probe;
  // Wherever the pointer is on the photo, the square neither covers it nor is cut off.
  for (const float u : {0.02f, 0.5f, 0.98f})
    for (const float v : {0.02f, 0.5f, 0.98f}) {
      const float px = box[0] + u * (box[2] - box[0]), py = box[1] + v * (box[3] - box[1]);
      driver.move(px, py);
      driver.frame();
      EXPECT_FALSE(driver.textures.last_smooth);
      const auto square = fixtures::DeskDriver::imageBox(driver.textures.last);
      EXPECT_GT(square[2] - square[0], 60);
      EXPECT_FALSE(square[0] < px && px < square[2] && square[1] < py && py < square[3]) << u << " " << v;
      EXPECT_LE(fixtures::DeskDriver::cutOff("/photo_"), 1.0f);
    }
  driver.actions.clear();
  driver.move(box[0] - 5, y);
  EXPECT_TRUE(driver.all<act::Probe>().empty());  // beside the photo
}

}  // namespace
}  // namespace huewright::desk
